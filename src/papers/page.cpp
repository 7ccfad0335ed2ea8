#include "papers/page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/contract.hpp"
#include "drawing/svg.hpp"
#include "papers/style_sheet.hpp"
#include "papers/typeset.hpp"

namespace tideover::papers {

namespace {

std::string element(std::string_view name, std::string_view words) {
  return fmt::format("<{0}>{1}</{0}>\n", name, typeset(words));
}

std::string bullet_list(const std::vector<std::string>& items) {
  std::string text = "<ul>\n";
  for (const std::string& item : items) text += element("li", item);
  return text + "</ul>\n";
}

/// A cell of several lines has each in a block of its own.
std::string cell_text(std::string_view words) {
  if (words.find('\n') == std::string_view::npos) return typeset(words);
  std::string text;
  while (!words.empty()) {
    const std::string_view line = words.substr(0, words.find('\n'));
    words.remove_prefix(std::min(words.size(), line.size() + 1));
    text += "<span class=\"line\">" + typeset(line) + "</span>\n";
  }
  return text;
}

}  // namespace

void Page::begin_section(std::string_view id, std::string_view title) {
  entries_.push_back({std::string(id), std::string(title)});
  body_ += fmt::format("<section id=\"{0}\" aria-labelledby=\"{0}-title\">\n", id);
  body_ += fmt::format("<h2 id=\"{}-title\">{}</h2>\n", id, typeset(title));
}

void Page::end_section() { body_ += "</section>\n"; }

void Page::heading(std::string_view words) { body_ += element("h3", words); }

void Page::paragraph(std::string_view words) { body_ += element("p", words); }

void Page::lead_paragraph(std::string_view words) {
  body_ += fmt::format("<p class=\"said\">{}</p>\n", typeset(words));
}

void Page::list(const std::vector<std::string>& items) { body_ += bullet_list(items); }

void Page::caution(std::string_view title, const std::vector<std::string>& items) {
  body_ += "<div class=\"caution\">\n" + element("h3", title) + bullet_list(items) + "</div>\n";
}

void Page::marked(std::string_view mark, std::string_view words, Advice advice,
                  std::string_view remedy) {
  body_ += fmt::format("<li><span class=\"mark {0}\">{0}</span> {1}", mark, typeset(words));
  if (!remedy.empty()) {
    body_ += fmt::format("<span class=\"remedy\"><i>{}:</i> {}</span>",
                         advice == Advice::ToKnow ? "To know it" : "To change", typeset(remedy));
  }
  body_ += "</li>\n";
}

void Page::finding(const ShownFinding& one) {
  body_ += fmt::format("<li><span class=\"mark {0}\">{0}</span> {1}", one.mark, typeset(one.words));
  const auto further = [&](std::string_view look, std::string_view lead, std::string_view words) {
    if (words.empty()) return;
    body_ += fmt::format("<span class=\"remedy {}\">", look);
    if (!lead.empty()) body_ += fmt::format("<i>{}:</i> ", lead);
    body_ += typeset(words) + "</span>";
  };
  further("quiet", "", one.figures);
  further("", one.is_to_know ? "To know it" : "To change", one.advice);
  std::string rule(one.rule);
  if (!one.formula.empty()) rule += fmt::format(" {}.", one.formula);
  if (!one.source.empty()) rule += fmt::format(" Source: {}.", one.source);
  further("quiet", "The rule", rule);
  further("beware", "Caution", one.caution);
  body_ += "</li>\n";
}

void Page::row(const Table& table, const std::vector<std::string>& cells) {
  TIDEOVER_EXPECT(cells.size() == table.columns.size(), "one cell a column");
  body_ += "<tr>";
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const char* const number = table.columns[k].is_number ? " class=\"number\"" : "";
    if (k == 0) {
      body_ += fmt::format("<th scope=\"row\">{}</th>", cell_text(cells[k]));
    } else {
      body_ += fmt::format("<td{}>{}</td>", number, cell_text(cells[k]));
    }
  }
  body_ += "</tr>\n";
}

void Page::checklist(const std::vector<ToTick>& items) {
  body_ += "<ul class=\"ticks\">\n";
  for (const ToTick& one : items) {
    body_ += "<li>" + typeset(one.words);
    if (!one.note.empty()) body_ += "<span class=\"note\">" + typeset(one.note) + "</span>";
    body_ += "</li>\n";
  }
  body_ += "</ul>\n";
}

namespace {

std::string_view class_of(Table::Style style) {
  switch (style) {
    case Table::Style::Plain: break;
    case Table::Style::Small: return " small";
    case Table::Style::Prose: return " prose";
  }
  return "";
}

}  // namespace

void Page::table(const Table& table) {
  body_ += fmt::format("<div class=\"wide{}\" role=", class_of(table.style)) +
           "\"region\" tabindex=\"0\" aria-label=\"" + typeset(table.caption) +
           "\">\n<table>\n<caption>" + typeset(table.caption) + "</caption>\n<thead><tr>";
  std::size_t number = 0;
  for (const Column& column : table.columns) {
    body_ += fmt::format("<th scope=\"col\" class=\"c{}{}\">{}</th>", number++,
                         column.is_number ? " number" : "", typeset(column.head));
  }
  body_ += "</tr></thead>\n";
  for (const RowGroup& group : table.groups) {
    body_ += "<tbody>\n";
    if (!group.title.empty()) {
      body_ +=
          fmt::format("<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"{}\">{}</th></tr>\n",
                      table.columns.size(), typeset(group.title));
    }
    for (const auto& cells : group.rows) row(table, cells);
    body_ += "</tbody>\n";
  }
  body_ += "</table>\n</div>\n";
}

namespace {

std::string reference(std::size_t source) {
  if (source == 0) return {};
  return fmt::format("<a class=\"ref\" href=\"#source-{0}\">{0}</a>", source);
}

}  // namespace

void Page::values(const PartValues& part) {
  body_ += "<div class=\"part\">\n" + element("h3", part.title);
  if (!part.note.empty()) {
    body_ += fmt::format("<p class=\"remark\">{}</p>\n", typeset(part.note));
  }
  for (const std::string& remark : part.remarks) {
    body_ += fmt::format("<p class=\"remark\">{}.</p>\n", typeset(remark));
  }
  if (!part.stated.empty()) body_ += "<dl>\n";
  for (const ShownValue& one : part.stated) {
    const std::string origin = one.origin.empty() ? "" : " <i>" + typeset(one.origin) + "</i>";
    body_ += fmt::format("<div><dt>{}</dt><dd>{}{}{}</dd></div>\n", typeset(one.key),
                         typeset(one.value), origin, reference(one.source));
  }
  if (!part.stated.empty()) body_ += "</dl>\n";
  if (!part.supposed.empty()) {
    body_ += "<p class=\"typical\"><b>Values taken as typical:</b> ";
    for (std::size_t k = 0; k < part.supposed.size(); ++k) {
      const ShownValue& one = part.supposed[k];
      body_ += (k > 0 ? "; " : "") + typeset(one.key) + (one.value.empty() ? "" : " ") +
               typeset(one.value) + reference(one.source);
    }
    body_ += ".</p>\n";
  }
  body_ += "</div>\n";
}

void Page::sources(const std::vector<std::string>& all) {
  if (all.empty()) return;
  heading("Sources");
  body_ += "<ol class=\"sources\">\n";
  for (std::size_t k = 0; k < all.size(); ++k) {
    body_ += fmt::format("<li id=\"source-{}\">{}</li>\n", k + 1, typeset(all[k]));
  }
  body_ += "</ol>\n";
}

void Page::figure(const drawing::Figure& figure, std::string_view caption) {
  body_ += "<figure>\n" + drawing::svg(figure);
  if (!caption.empty()) body_ += element("figcaption", caption);
  body_ += "</figure>\n";
}

std::string html_document(const Page& page, const Cover& cover) {
  std::string text = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n";
  // The page asks for nothing from anywhere, and says so to the browser.
  text +=
      "<meta http-equiv=\"Content-Security-Policy\" "
      "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n";
  text += element("title", cover.title);
  text += fmt::format("<style>\n{}</style>\n</head>\n<body>\n", style_sheet());
  text += "<a class=\"skip\" href=\"#verdict\">To the verdict</a>\n<header>\n";
  text += element("h1", cover.title) + fmt::format("<p>{}</p>\n", typeset(cover.subtitle));
  text += "<nav aria-label=\"Contents\"><ol>\n";
  for (const Page::Entry& entry : page.entries()) {
    text += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", entry.id, typeset(entry.title));
  }
  text += "</ol></nav>\n</header>\n<main>\n" + page.body() + "</main>\n<footer>\n";
  return text + element("p", cover.foot) + "</footer>\n</body>\n</html>\n";
}

}  // namespace tideover::papers
