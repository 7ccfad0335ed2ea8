// Builds that cannot work, or hardly: each gets a clear answer.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "question/predict.hpp"
#include "support/sheet_text.hpp"

using namespace tideover;
using question::Answer;

namespace {

const std::string gauge = R"(
[parts.gauge]
kind = "load"
draws = "6 W"
accepts = "9 V to 30 V"
rides = "10 ms"
)";

std::string adapter(const std::string& name, const std::string& output, const std::string& rated) {
  return "[parts." + name + "]\nkind = 'adapter'\noutput = '" + output + "'\nrated = '" + rated +
         "'\n";
}

std::string diode(const std::string& name) {
  return "[parts." + name + "]\nkind = 'diode'\nfrom = 'shelf:schottky-3a-40v'\n";
}

std::string pack(const std::string& name, const std::string& charge) {
  return "[parts." + name +
         "]\nkind = 'pack'\nseries = 5\ncell = 'shelf:nmc-18650-2800'\ncharge = '" + charge + "'\n";
}

using Ends = std::vector<std::pair<std::string, std::string>>;

std::string leads(const Ends& all) {
  std::string text = "[leads]\n";
  for (std::size_t k = 0; k < all.size(); ++k) {
    text += "l" + std::to_string(k) + " = { between = ['" + all[k].first + "', '" + all[k].second +
            "'], size = '1 mm2', length = '150 mm', colour = 'BN' }\n";
  }
  return text;
}

struct Answered {
  build::Build build;
  question::Prediction prediction;

  explicit Answered(const std::string& sheet)
      : build(test::read_or_fail("[needs]\noutlast = '1 h'\nambient = '20 degC'\n" + sheet,
                                 "small.toml")) {
    base::NoProgress nobody;
    prediction = question::predict(build, {}, nobody);
    for (const question::Trial* trial : prediction.trials()) {
      INFO(trial->record.outcome.why);
      CHECK(trial->record.outcome.ended != hybrid::Ended::Stuck);
      CHECK(trial->record.outcome.ended != hybrid::Ended::OpenBooks);
    }
    CHECK_FALSE(prediction.verdict.judgements.empty());
  }
  [[nodiscard]] bool fails(std::string_view key, const std::string& words) const {
    return std::ranges::any_of(prediction.verdict.judgements, [&](const auto& one) {
      return one.key() == key && one.answer == Answer::Fails &&
             one.sentence.find(words) != std::string::npos;
    });
  }
  [[nodiscard]] const finding::Finding* found(std::string_view rule, std::string_view part) const {
    for (const finding::Found& one : prediction.verdict.findings) {
      if (one.rule->key == rule && one.finding.part == part) return &one.finding;
    }
    return nullptr;
  }
  [[nodiscard]] double carried_s() const {
    const question::Outage* const outage = prediction.usual.judged_outage();
    REQUIRE(outage != nullptr);
    return outage->carried.si();
  }
};

}  // namespace

TEST_CASE("given an empty pack, it carries for minutes and its cells are said to go too low") {
  const Answered empty(gauge + adapter("mains", "24 V", "1 A") + diode("d_mains") +
                       diode("d_pack") + pack("pack", "0 %") +
                       leads({{"mains.plus", "d_mains.anode"},
                              {"d_mains.cathode", "gauge.plus"},
                              {"pack.plus", "d_pack.anode"},
                              {"d_pack.cathode", "gauge.plus"},
                              {"pack.minus", "gauge.minus"},
                              {"gauge.minus", "mains.minus"}}));
  CHECK(empty.carried_s() < 1200.0);
  CHECK(empty.fails("outlast", "1 h asked for"));
  CHECK(empty.fails("rating", "lowest cell voltage"));
}

TEST_CASE("given an adapter smaller than its load, it is called overloaded though nothing ran") {
  const Answered small("[parts.gauge]\nkind = 'load'\ndraws = '30 W'\naccepts = '9 V to 30 V'\n" +
                       adapter("mains", "24 V", "300 mA") +
                       leads({{"mains.plus", "gauge.plus"}, {"gauge.minus", "mains.minus"}}));
  CHECK(small.fails("adapter_loading", "all it feeds takes 1.25 A"));
  CHECK_FALSE(small.prediction.verdict.is_met);
}

TEST_CASE("given everything switched off, the device goes with the mains") {
  const Answered off(gauge + adapter("mains", "24 V", "1 A") + diode("d_mains") +
                     pack("pack", "80 %") + "[parts.main]\nkind = 'switch'\nstart = 0\n" +
                     leads({{"mains.plus", "d_mains.anode"},
                            {"d_mains.cathode", "gauge.plus"},
                            {"pack.plus", "main.common"},
                            {"main.way1", "gauge.plus"},
                            {"pack.minus", "gauge.minus"},
                            {"gauge.minus", "mains.minus"}}) +
                     "[[timelines.dead.stretch]]\nlasts = '1 h'\n"
                     "[[timelines.dead.stretch]]\nmains = 'absent'\nlasts = '2 h'\n");
  CHECK(off.carried_s() < 1.0);
  CHECK(off.fails("outlast", "1 h asked for"));
}

TEST_CASE("given two packs in parallel at different charge, the low one is charged too fast") {
  const Answered two(gauge + adapter("mains", "22 V", "3 A") + diode("d_mains") +
                     pack("full", "95 %") + pack("low", "20 %") +
                     leads({{"mains.plus", "d_mains.anode"},
                            {"d_mains.cathode", "gauge.plus"},
                            {"full.plus", "gauge.plus"},
                            {"low.plus", "full.plus"},
                            {"full.minus", "gauge.minus"},
                            {"low.minus", "full.minus"},
                            {"gauge.minus", "mains.minus"}}) +
                     "[start]\nsettled = false\n");
  REQUIRE(two.found("cell_charge_current", "low") != nullptr);
  CHECK(two.found("cell_charge_current", "low")->answer == Answer::Fails);
}

TEST_CASE("given converters that feed each other, the one that does not rest is named") {
  const Answered loop(gauge + adapter("mains", "24 V", "1 A") +
                      "[parts.up]\nkind = 'converter'\nfrom = 'shelf:step-up-100w'\n"
                      "output = '26 V'\n"
                      "[parts.down]\nkind = 'converter'\nfrom = 'shelf:step-down-5a'\n"
                      "output = '12 V'\n" +
                      leads({{"mains.plus", "down.in_plus"},
                             {"down.out_plus", "up.in_plus"},
                             {"up.out_plus", "down.in_plus"},
                             {"up.out_plus", "gauge.plus"},
                             {"mains.minus", "down.in_minus"},
                             {"down.out_minus", "up.in_minus"},
                             {"up.out_minus", "gauge.minus"}}));
  CHECK_FALSE(loop.prediction.verdict.is_met);
  CHECK((loop.fails("run", ": up.") || loop.fails("outlast", "1 h asked for")));
}

TEST_CASE("given a load on two rails, the higher one carries it and no diode is called reversed") {
  const Answered two(gauge + adapter("mains", "24 V", "1 A") + adapter("other", "22 V", "1 A") +
                     diode("d_mains") + diode("d_other") +
                     leads({{"mains.plus", "d_mains.anode"},
                            {"d_mains.cathode", "gauge.plus"},
                            {"other.plus", "d_other.anode"},
                            {"d_other.cathode", "gauge.plus"},
                            {"gauge.minus", "mains.minus"},
                            {"other.minus", "mains.minus"}}));
  CHECK(two.fails("outlast", "1 h asked for"));
  CHECK_FALSE(two.fails("polarity", "d_other"));
  CHECK_FALSE(two.fails("polarity", "d_mains"));
}

TEST_CASE("given a pack on the wrong side of a charger, it is never charged, and that is said") {
  const Answered wrong(gauge + adapter("mains", "24 V", "1 A") + pack("pack", "60 %") +
                       "[parts.charger]\nkind = 'charger'\nfrom = 'shelf:lithium-board-2a'\n"
                       "voltage = '20.5 V'\ncurrent = '0.5 A'\n" +
                       leads({{"pack.plus", "charger.in_plus"},
                              {"pack.minus", "charger.in_minus"},
                              {"mains.plus", "charger.out_plus"},
                              {"mains.minus", "charger.out_minus"},
                              {"mains.plus", "gauge.plus"},
                              {"gauge.minus", "mains.minus"}}));
  CHECK_FALSE(wrong.prediction.verdict.is_met);
}
