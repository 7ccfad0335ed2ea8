#include "service/coordination_json.hpp"

#include "question/coordination_phrases.hpp"

namespace tideover::service {

using question::Coordination;
using question::FusesInARow;
using question::LeadCover;
using question::LeadShort;

namespace {

template <class Quantity>
Json or_null(const std::optional<Quantity>& value) {
  return value ? Json(value->si()) : Json();
}

Json sentences(const std::vector<std::string>& all) {
  Json::List list;
  for (const std::string& one : all) list.push_back(one);
  return list;
}

Json short_json(const LeadCover& cover, const LeadShort& one) {
  return Json::Object{{"source", one.source->name},
                      {"at", one.plus.part + "." + one.plus.terminal},
                      {"least_a", one.current.lowest.si()},
                      {"most_a", one.current.highest.si()},
                      {"guard", question::in_words(one.guard)},
                      {"device", one.device != nullptr ? Json(one.device->name) : Json()},
                      {"judged_at_a", one.judged_at.si()},
                      {"opens_within_s", or_null(one.opens)},
                      {"lead_stands_s", or_null(one.stands)},
                      {"is_in_time", one.is_in_time},
                      {"sentence", sentence_of(cover, one)}};
}

Json lead_json(const LeadCover& cover) {
  Json::List shorts;
  for (const LeadShort& one : cover.shorts) shorts.push_back(short_json(cover, one));
  return Json::Object{{"lead", cover.lead->name},
                      {"is_return", cover.is_return},
                      {"protection", question::in_words(cover.protection)},
                      {"carries_a", cover.carries.si()},
                      {"withstands_a2s", cover.withstands.si()},
                      {"for_good_a", or_null(cover.for_good)},
                      {"unfused_m", cover.unfused.si()},
                      {"shorts", std::move(shorts)},
                      {"advice", advice_for(cover)}};
}

Json row_json(const FusesInARow& row) {
  Json::List stretches;
  for (const question::RaceStretch& one : row.race.stretches) {
    stretches.push_back(Json::Object{{"from_a", one.from.si()},
                                     {"to_a", one.to.si()},
                                     {"first", question::in_words(one.first)}});
  }
  return Json::Object{{"source", row.source->name},
                      {"before", row.race.before->name},
                      {"behind", row.race.behind->name},
                      {"highest_a", row.race.highest.si()},
                      {"is_selective", row.race.is_selective()},
                      {"currents", std::move(stretches)},
                      {"behind_lets_through_a2s", or_null(row.race.lets_through)},
                      {"before_melts_from_a2s", or_null(row.race.melts_from)},
                      {"sentences", sentences(sentences_of(row.race))}};
}

}  // namespace

Json::Object coordination_json(const Coordination& answer) {
  Json::List leads;
  for (const LeadCover& cover : answer.leads) leads.push_back(lead_json(cover));
  Json::List rows;
  for (const FusesInARow& row : answer.rows) rows.push_back(row_json(row));
  Json::List alone;
  for (const question::LoneFuse& one : answer.alone) {
    alone.push_back(Json::Object{
        {"source", one.source->name}, {"fuse", one.fuse->name}, {"highest_a", one.highest.si()}});
  }
  return {{"headline", sentences(headline_of(answer))},
          {"air_degc", answer.air.celsius()},
          {"leads", std::move(leads)},
          {"fuses_in_a_row", std::move(rows)},
          {"lone_fuses", std::move(alone)},
          {"basis", sentences(question::coordination_basis())},
          {"cautions", sentences(question::coordination_cautions())}};
}

}  // namespace tideover::service
