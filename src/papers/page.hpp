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
  /// One cell a column; the first one names the row. A line end begins a new line of the cell.
  std::vector<std::vector<std::string>> rows;
};

struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<RowGroup> groups;
  /// Small: long, looked things up in, set smaller on paper. Prose: cells are sentences, columns of
  /// equal width.
  enum class Style { Plain, Small, Prose };
  Style style = Style::Plain;
};

/// One value in a block: `key`, what it is, where it comes from, the number of its source (0:
/// none).
struct ShownValue {
  std::string key;
  std::string value;
  std::string origin;
  std::size_t source = 0;
};
/// All values of one part: stated ones one a line, supposed ones in a row.
struct PartValues {
  std::string title;
  std::string note;
  std::vector<std::string> remarks;  ///< sentences under the note
  std::vector<ShownValue> stated;
  std::vector<ShownValue> supposed;
};

/// What one rule found. What is empty is left out.
struct ShownFinding {
  std::string_view mark;  ///< "fails"
  std::string words;
  std::string figures = {};
  std::string advice = {};
  bool is_to_know = false;  ///< the advice says what to measure, not what to change
  std::string_view rule = {};
  std::string_view formula = {};
  std::string_view source = {};
  std::string_view caution = {};
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
  /// Something to look at with a box to tick on paper.
  struct ToTick {
    std::string words;
    std::string note;  ///< under it, set smaller
  };
  void checklist(const std::vector<ToTick>& items);
  void table(const Table& table);
  /// Between these, blocks of values flow in columns where there is room for two.
  void begin_columns() { body_ += "<div class=\"columns\">\n"; }
  void end_columns() { body_ += "</div>\n"; }
  void values(const PartValues& part);
  /// The numbered sources that values refer to; once a page.
  void sources(const std::vector<std::string>& all);
  void figure(const drawing::Figure& figure, std::string_view caption);
  /// A list of answers: a word in a frame such as "fails", the sentence it is about, what to
  /// change.
  void begin_judgements() { body_ += "<ul class=\"judged\">\n"; }
  void end_judgements() { body_ += "</ul>\n"; }
  enum class Advice { ToChange, ToKnow };
  void marked(std::string_view mark, std::string_view words, Advice advice,
              std::string_view remedy);
  void finding(const ShownFinding& one);  ///< between begin_judgements() and end_judgements()

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
