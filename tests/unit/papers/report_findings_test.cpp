// Findings and set points in the report.
#include <doctest/doctest.h>

#include "papers/report.hpp"
#include "support/beacon.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover;

namespace {

std::string report(const build::Build& build) {
  test::BeaconRun run;
  run.channel("lamp", "input voltage", quantity::Volt::dimension, 24.0, 22.5);
  run.channel("pack", "energy left", quantity::Joule::dimension, 1e5, 5e4);
  run.channel("up24", "body temperature", quantity::Kelvin::dimension, 300.0, 310.0, true);
  question::Prediction found{.usual = question::trial_of(run.record(), {}),
                             .worn = question::trial_of(run.record(), {}),
                             .hot = question::trial_of(run.record(), {})};
  found.verdict = question::judge({build, found.usual, found.worn, found.hot, {}});
  return papers::report_html(build, found, "9.9.9");
}

bool contains(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("findings stand worst first, with advice, rule and caution beside them") {
  const std::string html = report(test::beacon({{"charger.voltage", "'12.675 V'"}}));
  const std::string doctype = "<!DOCTYPE html>\n";
  REQUIRE(html.starts_with(doctype));
  CHECK(read_xml(html.substr(doctype.size())).fault == "");
  const auto section = html.find("id=\"findings\"");
  REQUIRE(section != std::string::npos);
  const auto fails = html.find("<span class=\"mark fails\">fails</span> charger charges", section);
  const auto caution = html.find("An overcharged lithium cell burns", section);
  const auto wires = html.find("<section id=\"wires\"");
  const auto holds = html.find("<section id=\"holds\"");
  CHECK(fails < caution);
  CHECK(caution < wires);
  CHECK(wires < holds);
  CHECK(holds != std::string::npos);
  CHECK(contains(html, "<i>To change:</i> charger: voltage = 12.6\u00a0V or less."));
}

TEST_CASE("every adjustment has a set point, how near, and what to read on which range") {
  const std::string html = report(test::beacon());
  const auto section = html.find("id=\"set-points\"");
  REQUIRE(section != std::string::npos);
  const std::string table = html.substr(section, html.find("</section>", section) - section);
  for (const char* words :
       {"charger.out_plus to charger.out_minus", "20\u00a0V DC", "10\u00a0A DC",
        "nothing connected to the output", "12.3\u00a0V", "An ammeter across"}) {
    INFO(words);
    CHECK(contains(table, words));
  }
  // The sheet counts on half a percent of 12.3 V.
  CHECK(contains(table, "12.24\u00a0V"));
}

TEST_CASE("a setting that a finding wants changed is not set as the sheet has it") {
  const std::string html = report(test::beacon({{"charger.voltage", "'12.8 V'"}}));
  CHECK(contains(html, "not at this value: the findings say what to change it to"));
  CHECK_FALSE(contains(html, "12.82\u00a0V"));
}
