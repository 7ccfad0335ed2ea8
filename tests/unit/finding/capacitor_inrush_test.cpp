// Empty capacitors against a quick board and an adapter that hiccups.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

namespace {

// A board that calls 40 A a short circuit.
Finding board_waiting(double delay_s) {
  return ask_jetty(capacitor_inrush(), "board",
                   {{"board.short_circuit", "'40 A'"},
                    {"board.short_circuit_delay", fmt::format("'{} us'", 1e6 * delay_s)}});
}

}  // namespace

TEST_CASE("a board that waits a little longer than the inrush lasts does not trip") {
  const double lasts_s = board_waiting(1e-3).measured->value_si;
  CHECK(lasts_s > 0.0);
  CHECK(board_waiting(1.02 * lasts_s).answer == Answer::Tight);
  const Finding finding = board_waiting(0.98 * lasts_s);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice.starts_with("board: short_circuit_delay = "));
  CHECK(board_waiting(lasts_s / 0.9 + 1e-5).answer == Answer::Holds);
}

TEST_CASE("a board that stands more than the pack drives is not stirred") {
  const Finding finding =
      ask_jetty(capacitor_inrush(), "board", {{"board.short_circuit", "'300 A'"}});
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si == 0.0);
}

TEST_CASE("given a board of which nothing is stated, it is asked for") {
  const Finding finding = ask_jetty(capacitor_inrush(), "board", {{"board.short_circuit", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"board.short_circuit"});
}

TEST_CASE("an adapter that hiccups fills what it can within its burst") {
  const auto with = [](double uf) {
    return ask_jetty(capacitor_inrush(), "shore",
                     {{"horn.input_capacitance", fmt::format("'{} uF'", uf)}});
  };
  // C U / I at 12.24 V and 2.5 A.
  const double per_uf_s = 1e-6 * 12.24 / 2.5;
  const double few_s = with(1000.0).measured->value_si;
  CHECK((with(2000.0).measured->value_si - few_s) / 1000.0 == doctest::Approx(per_uf_s));
  const double burst_s = with(1000.0).limit->value_si;
  CHECK(burst_s == doctest::Approx(0.03));
  const double just_uf = 1000.0 + (burst_s - few_s) / per_uf_s;
  CHECK(with(0.98 * just_uf).answer == Answer::Tight);
  CHECK(with(1.02 * just_uf).answer == Answer::Fails);
  CHECK(with(1.02 * just_uf).advice.starts_with("shore: no more than "));
}

TEST_CASE("an adapter that goes on at its limit is not asked") {
  for (const Finding& finding :
       ask_jetty(capacitor_inrush(), {{"shore.overload", "'constant-current'"}})) {
    CHECK(finding.part != "shore");
  }
}
