#include "papers/report.hpp"

#include <algorithm>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "part/fan/fan.hpp"
#include "support/hut.hpp"
#include "support/part_bench.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover;
using tideover::test::hut;
using tideover::test::HutRun;

namespace {

question::Prediction prediction() {
  HutRun run(8.0 * 3600.0);
  run.cut_off(5.0 * 3600.0, "board", "cuts the discharge path: group 3 is empty");
  run.lost("sea", 5.0 * 3600.0).lost("radio", 5.0 * 3600.0);
  run.event(HutRun::before_s + 0.012, "sea_relay", "lets go");
  const auto at = [](double celsius) { return quantity::Temperature::of_celsius(celsius); };
  question::Prediction found{
      .usual = question::trial_of(run.record(), {.ambient = at(18.0)}),
      .worn = question::trial_of(run.record(), {.ambient = at(2.0), .cells_aged = true}),
      .hot = question::trial_of(run.record(), {.ambient = at(34.0)})};
  const build::Build build = hut();
  found.standby = question::standby_of(build, found.usual.record);
  found.head_room = question::head_room_of(build, found.usual.record);
  found.verdict = question::judge({build, found.usual, found.worn, found.hot, found.head_room});
  return found;
}

std::string report() { return papers::report_html(hut(), prediction(), "9.9.9"); }

XmlReading read_page(const std::string& html) {
  const std::string doctype = "<!DOCTYPE html>\n";
  REQUIRE(html.starts_with(doctype));
  return read_xml(html.substr(doctype.size()));
}

bool contains(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("the report is well-formed and escapes what builders write") {
  const std::string html = report();
  CHECK(read_page(html).fault == "");
  CHECK(contains(html, "Hut &lt;on the quay&gt; &amp; &quot;pier&quot;"));
  CHECK_FALSE(contains(html, "<on the quay>"));
}

TEST_CASE("the verdict stands first, in sentences") {
  const std::string html = report();
  const auto verdict = html.find("Carries both devices for 5\u00a0h; 4\u00a0h asked for");
  REQUIRE(verdict != std::string::npos);
  for (const char* later : {"id=\"story\"", "<svg", "<table", "id=\"cautions\""}) {
    CHECK(verdict < html.find(later));
  }
}

TEST_CASE("the report asks for nothing from outside and runs no script") {
  std::string html = report();
  // The name of a vocabulary is not an address that is fetched.
  const std::string vocabulary = "http://www.w3.org/2000/svg";
  for (auto at = html.find(vocabulary); at != std::string::npos; at = html.find(vocabulary)) {
    html.erase(at, vocabulary.size());
  }
  for (const char* foreign : {"http:", "https:", "//", "<script", "<link", "<img", "<iframe",
                              "@import", "url(http", "src="}) {
    CHECK_MESSAGE(!contains(html, foreign), foreign);
  }
  CHECK(contains(html, "default-src 'none'"));
}

TEST_CASE("the report can be read without eyes and without colour") {
  const std::string html = report();
  const XmlReading page = read_page(html);
  CHECK(contains(html, "<html lang=\"en\">"));
  CHECK(page.count("h1") == 1);
  CHECK(page.count("main") == 1);
  CHECK(page.count("caption") == page.count("table"));
  CHECK(page.count("table") >= 7);
  // Every head of a column or a row says which it is.
  const auto scopes = page.values("scope");
  CHECK(scopes.size() == page.count("th"));
  // Every figure has words.
  CHECK(page.count("svg") >= 3);
  CHECK(page.count("desc") >= page.count("svg"));
  CHECK(page.count("figcaption") == page.count("figure"));
  // The first link goes past the head of the page, and every link has its end here.
  CHECK(contains(html, "<a class=\"skip\" href=\"#verdict\">"));
  const auto ids = page.values("id");
  const std::set<std::string> unique(ids.begin(), ids.end());
  CHECK(unique.size() == ids.size());
  for (const std::string& link : page.values("href")) {
    CHECK_MESSAGE(unique.contains(link.substr(1)), link);
  }
}

TEST_CASE("every value, lead and account is in the report") {
  const std::string html = report();
  const build::Build build = hut();
  for (const auto& part : build.parts) CHECK(contains(html, part->name + " \u2013 "));
  for (const build::Lead& lead : build.leads) {
    CHECK(contains(html, "<th scope=\"row\">" + lead.name + "</th>"));
  }
  // A stated value with its origin and the number of its source, a default behind the stated ones.
  CHECK(contains(html, "<dd>24.1\u00a0V <i>measured</i><a class=\"ref\" href=\"#source-"));
  CHECK(contains(html, ">bench</li>"));
  CHECK(contains(html, "<b>Values taken as typical:</b>"));
  CHECK(contains(html, ">assumed: at once</li>"));
  CHECK(contains(html, "0.75\u00a0mm\u00b2"));
  CHECK(contains(html, "sea_relay</td><td>lets go"));
  CHECK(contains(html, "12\u00a0ms after the mains goes"));
  CHECK(contains(html, "All together"));
  CHECK(contains(html, "tideover 9.9.9"));
}

TEST_CASE("the cautions are there, and defer to local codes") {
  const std::string html = report();
  CHECK(contains(html, "Lithium cells burn"));
  CHECK(contains(html, "Local codes and rules come first"));
  CHECK(contains(html, "What the tool cannot know"));
}

TEST_CASE("equal predictions give equal reports") { CHECK(report() == report()); }

TEST_CASE("a prediction that was stopped says so") {
  question::Prediction partial = prediction();
  partial.is_partial = true;
  partial.worn = question::trial_of({}, {});
  partial.hot = question::trial_of({}, {});
  const std::string html = papers::report_html(hut(), partial, "9.9.9");
  CHECK(read_page(html).fault == "");
  CHECK(contains(html, "This report is partial"));
}

TEST_CASE("a prediction without any run still makes a page") {
  const std::string html = papers::report_html({}, {}, "9.9.9");
  CHECK(read_page(html).fault == "");
}

TEST_CASE("a source is said once, however many values rest on it") {
  const std::string html = report();
  std::size_t times = 0;
  for (auto at = html.find(">bench</li>"); at != std::string::npos;
       at = html.find(">bench</li>", at + 1)) {
    ++times;
  }
  CHECK(times == 1);
}

TEST_CASE("given a reading against a label, then the report says which of them counts") {
  build::Build build = hut();
  auto fan = std::make_unique<part::Fan>();
  fan->name = "fan";
  fan->rated_voltage = tests::stated(quantity::Volt::of_si(12.0));
  fan->rated_current = tests::stated(quantity::Ampere::of_si(0.1));
  auto& point = fan->measured.emplace_back();
  point.voltage = tests::stated(quantity::Volt::of_si(12.0));
  point.current = tests::stated(quantity::Ampere::of_si(0.15));
  build.parts.push_back(std::move(fan));
  const std::string html = papers::report_html(build, prediction(), "9.9.9");
  CHECK(contains(html, "what was measured counts.</p>"));
  CHECK(read_page(html).fault == "");
}

TEST_CASE("energies of one table stand in one unit") {
  const std::string html = report();
  CHECK(contains(html, "Supplied, Wh"));
  // 1000 J, 700 J and 50 J.
  CHECK(contains(html, "<td class=\"number\">0.28</td>"));
  CHECK(contains(html, "<td class=\"number\">0.19</td>"));
  CHECK(contains(html, "<td class=\"number\">0.01</td>"));
}

TEST_CASE("the table of wires says what every lead loses") {
  question::Prediction found = prediction();
  const build::Build build = hut();
  found.leads =
      finding::lead_losses(build, found.usual.record, quantity::Temperature::of_celsius(18.0));
  found.ways = {{"sea",
                 quantity::Ampere::of_si(0.5),
                 quantity::Volt::of_si(24.0),
                 quantity::Volt::of_si(0.6),
                 {"sea_supply"}}};
  const std::string html = papers::report_html(build, found, "9.9.9");
  CHECK(contains(html, "Volts lost"));
  CHECK(contains(html, "sea loses 600\u00a0mV of 24\u00a0V (2\u00a0%) in its own leads"));
}

TEST_CASE("an outage that is there from the first instant makes a report") {
  HutRun run(8.0 * 3600.0);
  run::Record record = run.record();
  // The mains is away from the start, and back before anything could happen.
  record.stretches = {
      {quantity::Second::of_si(0.0), quantity::Second::of_si(0.0), "mains absent", false, true},
      {quantity::Second::of_si(0.0), record.instants.back(), "mains present", true, true}};
  question::Prediction found = prediction();
  found.usual = question::trial_of(record, {});
  CHECK(read_page(papers::report_html(hut(), found, "9.9.9")).fault == "");
}
