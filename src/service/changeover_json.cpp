#include "service/changeover_json.hpp"

#include "question/changeover_phrases.hpp"

namespace tideover::service {

using question::Changeover;
using question::Changeovers;
using question::ChangeView;
using question::HoldUp;
using question::Passage;

namespace {

std::string_view what_word(question::SourceChange::What what) {
  using What = question::SourceChange::What;
  switch (what) {
    case What::Mains: return "mains";
    case What::Switch: return "switch";
    case What::CutOff: return "cut-off";
    case What::Release: break;
  }
  return "release";
}

template <class Quantity>
Json optional_json(const std::optional<Quantity>& value) {
  return value ? Json(value->si()) : Json();
}

Json passage_json(const Passage& passage) {
  return Json::Object{{"load", passage.accepts.load},
                      {"outcome", question::in_words(passage.outcome)},
                      {"is_narrow", passage.is_tight()},
                      {"accepts_from_v", passage.accepts.low.si()},
                      {"accepts_to_v", passage.accepts.high.si()},
                      {"rides_s", passage.accepts.rides.si()},
                      {"before_v", passage.before.si()},
                      {"draw_w", passage.draw.si()},
                      {"lowest_v", passage.lowest.si()},
                      {"lowest_after_s", passage.lowest_after.si()},
                      {"highest_v", passage.highest.si()},
                      {"highest_after_s", passage.highest_after.si()},
                      {"below_s", passage.below.si()},
                      {"above_s", passage.above.si()},
                      {"without_source_s", passage.without_source.si()},
                      {"lost_after_s", optional_json(passage.lost_after)}};
}

Json view_json(const ChangeView& view) {
  Json::List loads;
  for (const Passage& passage : view.passages) loads.push_back(passage_json(passage));
  Json::List chain;
  for (const run::Event& event : view.trial.record.events) {
    chain.push_back(
        Json::Object{{"after_s", event.at.si()}, {"part", event.part}, {"words", event.words}});
  }
  return Json::Object{
      {"words", view.words}, {"loads", std::move(loads)}, {"events", std::move(chain)}};
}

Json hold_up_json(const HoldUp& answer) {
  Json::List remarks;
  for (const std::string& one : answer.remarks) remarks.push_back(one);
  Json::Object json{{"load", answer.load},
                    {"tried_up_to_f", question::most_tried_f},
                    {"found_f", optional_json(answer.found)},
                    {"behind_diode", answer.fitting == question::Fitting::BehindDiode},
                    {"in_place_of", answer.present.empty() ? Json() : Json(answer.present)},
                    {"closed_formula_f", optional_json(answer.closed)},
                    {"closed_formula_time_s", answer.bridged.si()},
                    {"own_input_f", answer.own.si()},
                    {"to_fit_f", optional_json(answer.buy)},
                    {"to_fit_rated_v", answer.buy ? Json(answer.rated.si()) : Json()},
                    {"remarks", std::move(remarks)}};
  if (answer.found) json.emplace_back("with_it", passage_json(answer.with_found));
  return json;
}

Json change_json(const Changeover& change) {
  Json::List views;
  for (const ChangeView& view : change.views) views.push_back(view_json(view));
  Json::List hold_ups;
  for (const HoldUp& answer : change.hold_ups) hold_ups.push_back(hold_up_json(answer));
  return Json::Object{{"words", change.change.words},
                      {"what", what_word(change.change.what)},
                      {"timeline", change.timeline},
                      {"at_s", change.change.at.si()},
                      {"watched_s", (change.change.until - change.change.at).si()},
                      {"times", static_cast<long>(change.times)},
                      {"rides_through", change.rides_through()},
                      {"views", std::move(views)},
                      {"capacitance", std::move(hold_ups)}};
}

}  // namespace

Json::Object changeover_json(const Changeovers& changes) {
  Json::List list;
  for (const Changeover& change : changes.changes) list.push_back(change_json(change));
  Json::List headline;
  for (const std::string& line : headline_of(changes)) headline.push_back(line);
  return {{"is_partial", changes.is_partial},
          {"rides_through", changes.rides_through()},
          {"headline", std::move(headline)},
          {"ambient_degc", changes.circumstances.ambient.celsius()},
          {"changes", std::move(list)}};
}

}  // namespace tideover::service
