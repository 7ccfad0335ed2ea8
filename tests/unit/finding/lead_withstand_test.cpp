// A shorted lead until its fuse has opened.
#include <cmath>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "support/closeness.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using test::ask_jetty;

namespace {

// A centimetre, so that its own resistance does not change the current.
Finding with_size(double mm2) {
  return ask_jetty(lead_withstand(), "leads.lamp_plus",
                   {{"leads.lamp_plus.size", fmt::format("'{} mm2'", mm2)},
                    {"leads.lamp_plus.length", "'10 mm'"}});
}

}  // namespace

TEST_CASE("copper in PVC stands k2S2 from its lasting limit on") {
  // 0.5 and 0.75 mm2 of IEC 60364-4-43, table 43A, from memory, with k = 115.0.
  CHECK(tests::relative_error(with_size(0.5).limit->value_si, 3306.0) < 1e-3);
  CHECK(tests::relative_error(with_size(0.75).limit->value_si, 7439.0) < 1e-3);
}

TEST_CASE("given a fuse of 1 A, leads of any usual size stand its let-through") {
  const Finding finding = ask_jetty(lead_withstand(), "leads.lamp_plus");
  CHECK(finding.answer == Answer::Holds);
  // Time-lag: 0.3 s at ten times 1 A and I2t constant above, so that it lets no more than 30 A2s
  // through at a high current; a smaller one takes longer, up to 5 s.
  CHECK(finding.measured->value_si > 20.0);
  CHECK(finding.measured->value_si < 100.0);
}

TEST_CASE("the size that just stands the let-through holds, one 2 % smaller does not") {
  const double integral = with_size(0.05).measured->value_si;
  const double just_mm2 = std::sqrt(integral / with_size(1.0).limit->value_si);
  CHECK(with_size(1.02 * just_mm2).answer != Answer::Fails);
  const Finding finding = with_size(0.98 * just_mm2);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice == "leads.lamp_plus: size = 0.14 mm2 or more.");
  CHECK(with_size(0.14).answer == Answer::Holds);
}

TEST_CASE("given so long a lead that a short circuit opens nothing, the lead has to carry it") {
  const auto with = [](const char* size, const char* length) {
    return ask_jetty(lead_withstand(), "leads.lamp_plus",
                     {{"leads.lamp_plus.size", size},
                      {"leads.lamp_plus.length", length},
                      {"f_lamp.rated", "'3.15 A'"}});
  };
  const Finding carried = with("'0.75 mm2'", "'60 m'");
  CHECK(carried.answer == Answer::Holds);
  CHECK(carried.limit->value_si == doctest::Approx(9.0));
  const Finding thin = with("'24 AWG'", "'30 m'");
  CHECK(thin.answer == Answer::Fails);
  CHECK(thin.limit->value_si < thin.measured->value_si);
  CHECK(thin.advice.starts_with("f_lamp: rated = "));
}

TEST_CASE("a lead without a fuse is another rule's") {
  for (const Finding& finding : ask_jetty(lead_withstand())) {
    CHECK(finding.part != "leads.board_plus");
    CHECK(finding.part != "leads.coil_plus");
  }
}
