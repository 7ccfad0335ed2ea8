/// Writes one HTML page: sections, sentences, tables, figures. Words given here are plain; they are
/// made safe and printed with their signs (papers/typeset.hpp).
/// Source: WHATWG HTML, spelled so that an XML reader accepts it too.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/figure.hpp"

namespace tideover::papers {

struct Column {
  std::string head;
  bool is_number = false;
};

/// Rows that belong together; the title may be empty.
struct RowGroup {
  std::string title;
  std::vector<std::vector<std::string>> rows;  ///< one cell a column; the first one names the row
};

struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<RowGroup> groups;
  bool is_dense = false;  ///< long and looked things up in: small, columns of fixed width
};

class Page {
 public:
  /// `id` is unique on the page.
  void begin_section(std::string_view id, std::string_view title);
  void end_section();
  void heading(std::string_view words);  ///< inside a section
  void paragraph(std::string_view words);
  void lead_paragraph(std::string_view words);  ///< set larger
  void list(const std::vector<std::string>& items);
  void caution(std::string_view title, const std::vector<std::string>& items);
  void table(const Table& table);
  void figure(const drawing::Figure& figure, std::string_view caption);
  /// A list of answers: a word in a frame such as "fails", the sentence it is about, what to
  /// change.
  void begin_judgements() { body_ += "<ul class=\"judged\">\n"; }
  void end_judgements() { body_ += "</ul>\n"; }
  void marked(std::string_view mark, std::string_view words, std::string_view remedy);

  struct Entry {
    std::string id;
    std::string title;
  };
  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  [[nodiscard]] const std::string& body() const { return body_; }

 private:
  void row(const Table& table, const std::vector<std::string>& cells);

  std::string body_;
  std::vector<Entry> entries_;
};

/// The whole document around `page`.
struct Cover {
  std::string title;
  std::string subtitle;
  std::string foot;
};
[[nodiscard]] std::string html_document(const Page& page, const Cover& cover);

}  // namespace tideover::papers
