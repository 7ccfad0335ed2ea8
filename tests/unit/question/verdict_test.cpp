#include "question/verdict.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "part/charger/charger.hpp"
#include "part/pack/pack.hpp"
#include "support/hut.hpp"

using namespace tideover::question;
using namespace tideover::quantity::literals;
using tideover::test::hut;
using tideover::test::HutRun;

namespace {

constexpr double hour_s = 3600.0;

Trial trial(const HutRun& run, double celsius, bool worn = false) {
  return trial_of(run.record(), {.ambient = tideover::quantity::Temperature::of_celsius(celsius),
                                 .cells_aged = worn});
}

Verdict verdict_of(const HutRun& usual, const HutRun& worn) {
  const auto build = hut();
  const Trial as_is = trial(usual, 18.0);
  const Trial aged = trial(worn, 2.0, true);
  const Trial warm = trial(usual, 34.0);
  const auto rooms = head_room_of(build, as_is.record);
  return judge({build, as_is, aged, warm, rooms});
}

const Judgement& about(const Verdict& verdict, const std::string& what, Answer answer) {
  const auto found = std::ranges::find_if(verdict.judgements, [&](const Judgement& one) {
    return one.key() == what && one.answer == answer;
  });
  REQUIRE(found != verdict.judgements.end());
  return *found;
}

HutRun empties(double after_h) {
  HutRun run(12.0 * hour_s);
  run.cut_off(after_h * hour_s, "board", "cuts the discharge path: group 3 is empty");
  run.lost("sea", after_h * hour_s).lost("radio", after_h * hour_s);
  return run;
}

}  // namespace

TEST_CASE("given a supply with time to spare, every need holds") {
  const Verdict verdict = verdict_of(empties(6.0), empties(5.0));
  CHECK(verdict.outcome == Answer::Holds);
  REQUIRE(verdict.headline.size() == 3);
  CHECK(verdict.headline[0] ==
        "Carries both devices for 6 h; 4 h asked for (cells as they are, 18 degC).");
  CHECK(verdict.headline[1] ==
        "Carries both devices for 5 h; 4 h asked for (cells at the end of their life, 2 degC).");
  CHECK(
      verdict.headline[2] ==
      "Full again 9 h after the mains is back, 9 h at the end of the cells' life; 14 h asked for.");
  for (const Judgement& one : verdict.judgements) CHECK(one.remedy.empty());
}

TEST_CASE("given worn cells that last a little longer than asked, it is tight") {
  const Verdict verdict = verdict_of(empties(6.0), empties(4.2));
  CHECK(verdict.outcome == Answer::Tight);
  const Judgement& tight = about(verdict, "outlast", Answer::Tight);
  CHECK(tight.sentence ==
        "Both devices served for 4 h 12 min; 4 h asked for (cells at the end of their life, 2 "
        "degC).");
  CHECK_FALSE(tight.remedy.empty());
}

TEST_CASE("given worn cells that fall short, the pack and the number are named") {
  const Verdict verdict = verdict_of(empties(5.0), empties(3.0));
  CHECK(verdict.outcome == Answer::Fails);
  const Judgement& fails = about(verdict, "outlast", Answer::Fails);
  // 2 cells * 1.1 * 4 h / 3 h = 2.93: three side by side.
  CHECK(fails.remedy ==
        "pack: 3 cells side by side instead of 2 (parallel = 3), or cells of 47 % more capacity.");
  CHECK(&fails == &verdict.judgements.front());
}

TEST_CASE("given a fuse that ends the run with charge left, the fuse is named") {
  HutRun run(12.0 * hour_s);
  run.event(HutRun::before_s + 2.0 * hour_s, "f_sea", "opens");
  run.lost("sea", 2.0 * hour_s);
  const Verdict verdict = verdict_of(run, run);
  CHECK(about(verdict, "outlast", Answer::Fails).remedy ==
        "It ends when f_sea opens: start there.");
}

TEST_CASE("given an outage shorter than asked, nobody knows") {
  const Verdict verdict = verdict_of(HutRun(2.0 * hour_s), HutRun(2.0 * hour_s));
  CHECK(verdict.outcome == Answer::Unknown);
  CHECK(about(verdict, "outlast", Answer::Unknown).sentence ==
        "Both devices served for at least 2 h; 4 h asked for (cells as they are, 18 degC).");
}

TEST_CASE("given a radio that restarts when the mains goes, it does not carry both devices") {
  HutRun run = empties(6.0);
  run.interrupted("radio", 0.03, 45.0);
  const Verdict verdict = verdict_of(run, run);
  CHECK(verdict.outcome == Answer::Fails);
  const Judgement& service = about(verdict, "service", Answer::Fails);
  CHECK(service.sentence ==
        "radio restarts when the mains goes: up to 45 s without service (cells as they are, 18 "
        "degC).");
  CHECK(service.remedy ==
        "radio: its input is below 9 V for longer than the 10 ms it rides through; a changeover "
        "that acts sooner, or a capacitor across its supply, where `changeover` finds one that is "
        "enough.");
  CHECK(
      verdict.headline[0] ==
      "Does not carry both devices across the loss of mains (cells as they are, 18 degC; cells at "
      "the end of their life, 2 degC).");
}

TEST_CASE("given a radio that restarts while the pack empties, no capacitor is advised") {
  HutRun run = empties(6.0);
  run.interrupted("radio", 5.0 * hour_s, 3.0);
  const Verdict verdict = verdict_of(run, run);
  const Judgement& service = about(verdict, "service", Answer::Fails);
  CHECK(service.sentence.starts_with("radio restarts during the outage: "));
  CHECK(service.remedy ==
        "radio: what feeds it must stay above 9 V while it draws its most, to the end: a higher "
        "voltage, less drop on the way, or a converter before it.");
}

TEST_CASE("given a radio lost long before the pack is cut off, its voltage is pointed at") {
  HutRun run(12.0 * hour_s);
  run.cut_off(8.0 * hour_s, "board", "cuts the discharge path: group 3 is empty");
  run.lost("sea", 8.0 * hour_s).interrupted("radio", 3.0 * hour_s, 3.0);
  const Verdict verdict = verdict_of(run, run);
  const Judgement& outlast = about(verdict, "outlast", Answer::Fails);
  CHECK(outlast.remedy.starts_with("A device is lost before the pack is cut off"));
  CHECK(outlast.remedy.find("take over") == std::string::npos);
}

TEST_CASE("given runs that the user stopped, it is said once, and no timeline is asked for") {
  const auto build = hut();
  Trial stopped = trial(HutRun(), 18.0);
  stopped.record.is_partial = true;
  for (auto& outage : stopped.outages) outage.full_after.reset();
  const auto rooms = head_room_of(build, stopped.record);
  const Verdict verdict = judge({build, stopped, stopped, stopped, rooms});
  CHECK(about(verdict, "run", Answer::Unknown).sentence ==
        "3 runs were stopped before their end: what was not seen by then is not judged.");
  CHECK(std::ranges::count(verdict.judgements, "run", &Judgement::key) == 1);
  CHECK(about(verdict, "recharge", Answer::Unknown).remedy == "let the work go on to its end.");
}

TEST_CASE("given worn cells that do no worse, what comes out is said once for both") {
  const Verdict verdict = verdict_of(empties(6.0), empties(6.0));
  REQUIRE(verdict.headline.size() == 2);
  CHECK(verdict.headline[0] ==
        "Carries both devices for 6 h; 4 h asked for (cells as they are, 18 degC; cells at the end "
        "of their life, 2 degC).");
  const auto build = hut();
  const Trial only = trial(empties(6.0), 18.0);
  const auto rooms = head_room_of(build, only.record);
  CHECK(judge({build, only, only, only, rooms}).headline[0] ==
        "Carries both devices for 6 h; 4 h asked for (cells as they are, 18 degC).");
}

TEST_CASE("a lead that carries too much is called by its own name") {
  HutRun usual = empties(6.0);
  usual.overload({.part = "leads.sea_supply",
                  .rating = "ampacity",
                  .channel = 8,
                  .limit_si = 0.4,
                  .worst = {0.5, 4000.0_s},
                  .mean_si = 0.5,
                  .first = 3700.0_s,
                  .total = 60.0_s,
                  .longest = 60.0_s,
                  .stands = 1.0_s,
                  .source = "label"});
  const Verdict verdict = verdict_of(usual, usual);
  const Judgement& thin = about(verdict, "lead_ampacity", Answer::Fails);
  CHECK(thin.sentence.starts_with("lead sea_supply carries"));
  CHECK(thin.remedy.starts_with("leads.sea_supply: size = "));
  CHECK(verdict.headline[0].starts_with("Before anything else: lead sea_supply is thin"));
}

TEST_CASE("given a slow charger, its setting and the one it needs are named") {
  auto build = hut();
  build.needs.recharge.nominal_si = 7.5 * hour_s;
  const Trial one = trial(empties(6.0), 18.0);
  const auto rooms = head_room_of(build, one.record);
  const Verdict verdict = judge({build, one, one, one, rooms});
  // 0.8 A * 1.1 * 9 h / 7.5 h
  CHECK(about(verdict, "recharge", Answer::Fails).remedy ==
        "charger: current 1.06 A instead of 800 mA; mains24 gives up to 50 % of its rating.");
}

TEST_CASE("given a pack that never fills, recharging fails") {
  HutRun run = empties(6.0);
  run.never_full();
  const Verdict verdict = verdict_of(run, run);
  CHECK(about(verdict, "recharge", Answer::Fails).sentence ==
        "The pack is never full again (cells as they are, 18 degC).");
}

TEST_CASE("a rating exceeded for longer than it stands fails once, by its worst run") {
  tideover::run::Overload mild{.part = "pack",
                               .rating = "peak current",
                               .channel = 8,
                               .limit_si = 0.4,
                               .worst = {0.5, 4000.0_s},
                               .first = 3700.0_s,
                               .total = 60.0_s,
                               .longest = 60.0_s,
                               .stands = 1.0_s,
                               .source = "label"};
  auto harsh = mild;
  harsh.worst.value_si = 0.7;
  HutRun usual = empties(6.0);
  usual.overload(mild);
  HutRun worn = empties(5.0);
  worn.overload(harsh);
  const Verdict verdict = verdict_of(usual, worn);
  CHECK(verdict.outcome == Answer::Fails);
  CHECK(std::ranges::count(verdict.judgements, "rating", &Judgement::key) == 1);
  const Judgement& rating = about(verdict, "rating", Answer::Fails);
  CHECK(
      rating.sentence.starts_with("pack: discharge current 700 mA against 400 mA allowed at most"));
  CHECK(rating.remedy.find("700 mA") != std::string::npos);
}

TEST_CASE("a rating exceeded for less than it stands is nobody's worry") {
  HutRun usual = empties(6.0);
  usual.overload({.part = "pack",
                  .rating = "discharge current",
                  .channel = 8,
                  .limit_si = 0.4,
                  .worst = {0.5, 4000.0_s},
                  .longest = 0.5_s,
                  .stands = 1.0_s});
  CHECK(verdict_of(usual, empties(5.0)).outcome == Answer::Holds);
}

TEST_CASE("a run that could not be continued is said to be so") {
  auto build = hut();
  auto record = empties(6.0).record();
  record.outcome = {tideover::hybrid::Ended::Stuck, 7200.0, "sea.plus"};
  const Trial stuck = trial_of(record, {});
  const Verdict verdict = judge({build, stuck, stuck, stuck, {}});
  CHECK(about(verdict, "run", Answer::Fails).sentence ==
        "The run could not be continued after 2 h (cells as they are, 25 degC): sea.plus.");
}

TEST_CASE("every timeline is judged, and the worst one tells") {
  const auto build = hut();
  const Trial storm = trial(empties(6.0), 18.0);
  const Trial worn = trial(empties(5.0), 2.0, true);
  HutRun week(12.0 * hour_s);
  week.lost("radio", 1.5 * hour_s);
  Trial other = trial(week, 18.0);
  other.words = "bad-week, " + other.words;
  const std::vector<Trial> others{other};
  const Verdict verdict = judge({build, storm, worn, storm, {}, others});
  const Judgement& fails = about(verdict, "outlast", Answer::Fails);
  CHECK(fails.sentence ==
        "Both devices served for 1 h 30 min; 4 h asked for (bad-week, cells as they are, 18 "
        "degC).");
}

TEST_CASE("a need that no run can judge is not met, and says what would tell") {
  const Verdict verdict = verdict_of(HutRun(2.0 * hour_s), HutRun(2.0 * hour_s));
  CHECK(verdict.outcome == Answer::Unknown);
  CHECK_FALSE(verdict.is_met);
  CHECK(about(verdict, "outlast", Answer::Unknown).remedy ==
        "a timeline with an outage of 4 h or more.");
}

TEST_CASE("years asked for are held against the life that the sheet states of its cells") {
  auto build = hut();
  build.needs.life = tideover::quantity::Value<tideover::quantity::Second>(43830.0_h);
  build.needs.life.given = true;
  const Trial one = trial(empties(6.0), 18.0);
  const Verdict unknown = judge({build, one, one, one, {}});
  CHECK_FALSE(unknown.is_met);
  CHECK(about(unknown, "life", Answer::Unknown).remedy.find("say `life` of its cell") !=
        std::string::npos);
  auto& pack = dynamic_cast<tideover::part::Pack&>(*build.parts[3]);
  pack.cell.life = tideover::quantity::Value<tideover::quantity::Second>(35064.0_h);
  CHECK(about(judge({build, one, one, one, {}}), "life", Answer::Fails).sentence ==
        "The cells of pack are worn out after 4 yr, as the sheet states; 5 yr asked for.");
  pack.cell.life = tideover::quantity::Value<tideover::quantity::Second>(70128.0_h);
  CHECK(judge({build, one, one, one, {}}).is_met);
}

TEST_CASE("a sheet that asks for nothing is told so, and nothing is called met") {
  auto build = hut();
  build.needs = {};
  const Trial one = trial(empties(6.0), 18.0);
  const Verdict verdict = judge({build, one, one, one, {}});
  CHECK_FALSE(verdict.states_needs);
  CHECK(verdict.outcome == Answer::Unknown);
  CHECK(verdict.headline.back().starts_with("The sheet asks for nothing"));
}

TEST_CASE("a step-down charger that cannot reach the pack's voltage is told so") {
  HutRun run = empties(6.0);
  run.never_full();
  run.always("charger", "input voltage", 19.0);
  auto build = hut();
  auto& charger = dynamic_cast<tideover::part::Charger&>(*build.parts[4]);
  charger.voltage = tideover::quantity::Value<tideover::quantity::Volt>(20.5_V);
  const Trial one = trial(run, 18.0);
  const Verdict verdict = judge({build, one, one, one, {}});
  const std::string& remedy = about(verdict, "recharge", Answer::Fails).remedy;
  CHECK(remedy.starts_with("charger: it can only step down, needs "));
  CHECK(remedy.find("and gets 19 V at most") != std::string::npos);
}
