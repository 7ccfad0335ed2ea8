// Every build under examples/ is read whole and comes out as its story says.

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "question/predict.hpp"
#include "service/prediction_lines.hpp"
#include "shelf/shelf.hpp"
#include "support/places.hpp"

namespace {

using namespace tideover;
using question::Answer;

constexpr double hour_s = 3600.0;

build::Build example(const std::string& name) {
  auto read = build::read_sheet_file(test::examples_dir() / name, shelf::built_in_shelf());
  REQUIRE_MESSAGE(read.has_value(), name);
  return std::move(read).value();
}

struct Answered {
  build::Build build;
  question::Prediction prediction;

  [[nodiscard]] const question::Outage& outage(const question::Trial& trial) const {
    const question::Outage* const found = trial.judged_outage();
    REQUIRE(found != nullptr);
    return *found;
  }
  [[nodiscard]] const question::Outage& usual() const { return outage(prediction.usual); }
  [[nodiscard]] const question::Outage& worn() const { return outage(prediction.worn); }
  [[nodiscard]] double served_s(const question::Outage& during, const std::string& load) const {
    const auto found = std::ranges::find(during.servings, load, &question::Serving::load);
    REQUIRE(found != during.servings.end());
    return found->lost_after.value_or(during.length()).si();
  }
  /// The judgement whose sentence begins so.
  [[nodiscard]] const question::Judgement* told(const std::string& begins) const {
    const auto& all = prediction.verdict.judgements;
    const auto found = std::ranges::find_if(
        all, [&](const question::Judgement& one) { return one.sentence.starts_with(begins); });
    return found == all.end() ? nullptr : &*found;
  }
  [[nodiscard]] bool fails(const std::string& begins) const {
    const question::Judgement* const found = told(begins);
    return found != nullptr && found->answer == Answer::Fails && !found->remedy.empty();
  }
  /// What a rule finds of a part; null if nothing.
  [[nodiscard]] const finding::Finding* found(std::string_view rule, std::string_view part) const {
    for (const finding::Found& one : prediction.verdict.findings) {
      if (one.rule->key == rule && one.finding.part == part) return &one.finding;
    }
    return nullptr;
  }
  /// It fails, and what to change is said.
  [[nodiscard]] bool fails(std::string_view rule, std::string_view part) const {
    const finding::Finding* const one = found(rule, part);
    return one != nullptr && one->answer == Answer::Fails && !one->advice.empty();
  }
};

Answered ask(const std::string& name) {
  base::NoProgress nobody;
  Answered answered{example(name), {}};
  answered.prediction = question::predict(answered.build, {}, nobody);
  return answered;
}

/// Every need met, every rule asked, and nothing that fails or is not known.
void check_sound(const Answered& answered) {
  CHECK(service::status_of(answered.prediction) == service::Status::Met);
  for (const question::Judgement& one : answered.prediction.verdict.judgements) {
    CHECK_MESSAGE((one.answer == Answer::Holds || one.answer == Answer::Tight), one.sentence);
  }
  for (const finding::Found& one : answered.prediction.verdict.findings) {
    CHECK_MESSAGE(one.finding.answer != Answer::Fails, one.finding.sentence);
    CHECK_MESSAGE(one.finding.answer != Answer::Unknown, one.finding.sentence);
  }
  CHECK(answered.prediction.verdict.findings.size() > 100);
}

}  // namespace

TEST_CASE("every folder under examples holds a sheet without a problem") {
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(test::examples_dir())) {
    if (!entry.is_directory()) continue;
    CHECK_FALSE(example(entry.path().filename().string()).title.empty());
    ++count;
  }
  CHECK(count >= 4);
}

// 4.53 W of both devices and what the two ideal diodes and the board take, from 2 x 2.49 Ah at some
// 13.1 V: fourteen hours and a little, less what the board leaves in the cells.
TEST_CASE("frost-watch: both devices last the night, and nothing is noticed at the changeover") {
  const Answered answered = ask("frost-watch");
  check_sound(answered);
  CHECK(answered.usual().carried.si() == doctest::Approx(13.8 * hour_s).epsilon(0.03));
  CHECK(answered.worn().carried.si() == doctest::Approx(11.0 * hour_s).epsilon(0.03));
  CHECK(answered.usual().ended_by.starts_with("board cuts the discharge path"));
  // 4.98 Ah at 0.90 A, less what is left and more for the taper.
  REQUIRE(answered.usual().full_after.has_value());
  CHECK(answered.usual().full_after->si() == doctest::Approx(5.5 * hour_s).epsilon(0.05));
  for (const question::Trial* trial : answered.prediction.judged()) {
    for (const question::Serving& serving : answered.outage(*trial).servings) {
      CHECK(serving.interruptions.empty());
    }
  }
}

// 1.79 W and 2.93 W with the losses of three boards, from a 6.7 Ah block whose last tenth the
// lockout keeps back.
TEST_CASE("tower-clock: hands and lamp go on until the lockout of the board behind the battery") {
  const Answered answered = ask("tower-clock");
  check_sound(answered);
  CHECK(answered.usual().carried.si() == doctest::Approx(14.4 * hour_s).epsilon(0.03));
  CHECK(answered.worn().carried.si() == doctest::Approx(11.1 * hour_s).epsilon(0.03));
  CHECK(answered.usual().ended_by == "battery_board turns off: too little input");
  REQUIRE(answered.usual().full_after.has_value());
  CHECK(answered.usual().full_after->si() == doctest::Approx(18.1 * hour_s).epsilon(0.05));
  // Off, the board lets nothing through: what drains the battery then is the charger's 2 mA.
  REQUIRE(answered.prediction.dark.lasts.has_value());
  CHECK(answered.prediction.dark.lasts->si() > 14.0 * 24.0 * hour_s);
}

TEST_CASE("weir-alarm: the gauge goes at once, the lamp after an hour and a half, and much fails") {
  const Answered answered = ask("weir-alarm");
  CHECK(service::status_of(answered.prediction) == service::Status::NotMet);
  // The adapters' 18 ms at full load carry the gauge for a moment; the relay lets go long after.
  CHECK(answered.usual().carried.si() == doctest::Approx(0.049).epsilon(0.2));
  CHECK(answered.served_s(answered.usual(), "bank_lamp") ==
        doctest::Approx(1.5 * hour_s).epsilon(0.05));
  CHECK(answered.served_s(answered.worn(), "bank_lamp") <
        answered.served_s(answered.usual(), "bank_lamp"));
  CHECK(answered.served_s(answered.worn(), "float_gauge") < 60.0);
  CHECK(answered.fails("adapter_loading", "mains24"));
  CHECK(answered.fails("charger_spare", "charger"));
  CHECK(answered.fails("charge_voltage", "charger"));
  CHECK(answered.fails("cold_charging", "pack"));
  CHECK(answered.fails("converter_drop_out", "step_down"));
  CHECK(answered.fails("diode_current", "d_charger"));
  CHECK(answered.fails("relay_release", "gauge_relay"));
  CHECK(answered.fails("fuse_for_each_lead", "leads.lamp_plus"));
  CHECK(answered.fails("lead_ampacity", "leads.lamp_plus"));
  REQUIRE(answered.found("fuse_breaking", "f_gauge") != nullptr);
  CHECK(answered.found("fuse_breaking", "f_gauge")->answer == Answer::Unknown);
  CHECK(answered.fails("Both devices served for 48"));
  CHECK(answered.fails("float_gauge restarts when the mains goes"));
  CHECK(answered.fails("bank_lamp restarts when the mains goes"));
  // 0.76 A through 48 m of 0.25 mm2 with 79 mOhm a metre at most: 2.8 V.
  REQUIRE(answered.found("wire_loss", "bank_lamp") != nullptr);
  CHECK(answered.found("wire_loss", "bank_lamp")->sentence.starts_with("bank_lamp loses 2."));
  CHECK(answered.told("Whether the cells of pack serve for 5 yr is not known") != nullptr);
  // A device that comes and goes at the converter's drop-out is told what it wants.
  const question::Judgement* const flutter = answered.told("float_gauge is lost, ");
  REQUIRE(flutter != nullptr);
  CHECK(flutter->remedy.starts_with("float_gauge: what feeds it must stay above 11 V"));
}
