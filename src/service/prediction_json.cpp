#include "service/prediction_json.hpp"

#include <charconv>

#include <fmt/format.h>

#include "papers/channel_unit.hpp"
#include "question/thinning.hpp"
#include "service/findings_json.hpp"

namespace tideover::service {

using quantity::Second;
using question::Outage;
using question::Prediction;
using question::Trial;

namespace {

template <class Item, class Turn>
Json::List list_of(const std::vector<Item>& items, Turn turn) {
  Json::List list;
  for (const Item& item : items) list.push_back(turn(item));
  return list;
}

/// The double whose shortest text has at most seven digits.
double to_seven_digits(double number) {
  double read = number;
  const std::string text = fmt::format("{:.7g}", number);
  std::from_chars(text.data(), text.data() + text.size(), read);
  return read;
}

Json optional_s(const std::optional<Second>& time) { return time ? Json(time->si()) : Json(); }

std::string_view when_word(question::Interruption::When when) {
  switch (when) {
    case question::Interruption::When::AtLoss: return "at loss";
    case question::Interruption::When::During: return "during";
    case question::Interruption::When::AtReturn: break;
  }
  return "at return";
}

Json serving_json(const question::Serving& serving) {
  return Json::Object{
      {"load", serving.load},
      {"served_before", serving.served_before},
      {"lost_after_s", optional_s(serving.lost_after)},
      {"back_after_return_s", optional_s(serving.back_after)},
      {"interruptions", list_of(serving.interruptions, [](const question::Interruption& one) {
         return Json(Json::Object{{"when", when_word(one.when)},
                                  {"begins_at_s", one.from.si()},
                                  {"lasts_s", one.length().si()}});
       })}};
}

Json outage_json(const Outage& outage) {
  return Json::Object{{"begins_at_s", outage.begins.si()},
                      {"lasts_s", outage.length().si()},
                      {"mains_returns", outage.mains_returns},
                      {"carried_s", outage.carried.si()},
                      {"carried_to_its_end", outage.carried_whole},
                      {"first_lost_after_s", optional_s(outage.first_lost)},
                      {"last_lost_after_s", optional_s(outage.last_lost)},
                      {"pack_cut_off_after_s", optional_s(outage.cut_off)},
                      {"ended_by", outage.ended_by},
                      {"cut_off_by", outage.cut_off_by},
                      {"full_after_return_s", optional_s(outage.full_after)},
                      {"loads", list_of(outage.servings, serving_json)}};
}

Json books_json(const run::Books& books) {
  return Json::Object{
      {"accounts", list_of(books.accounts,
                           [](const run::Account& account) {
                             return Json(Json::Object{{"name", account.name},
                                                      {"supplied_j", account.supplied.si()},
                                                      {"served_j", account.served.si()},
                                                      {"lost_j", account.lost.si()}});
                           })},
      {"stored_before_j", books.stored_before.si()},
      {"stored_after_j", books.stored_after.si()},
      {"residual_j", books.residual.si()},
      {"open_share", books.open_share}};
}

Json overload_json(const run::Overload& overload, const run::Record& record) {
  const papers::ChannelUnit unit = papers::unit_of(record.channels[overload.channel]);
  return Json::Object{{"part", overload.part},
                      {"rating", overload.rating},
                      {"channel", record.channels[overload.channel].name},
                      {"unit", unit.plain},
                      {"limit", unit.of_si(overload.limit_si)},
                      {"is_upper", overload.is_upper},
                      {"is_polarity", overload.is_polarity},
                      {"worst", unit.of_si(overload.worst.value_si)},
                      {"worst_at_s", overload.worst.at.si()},
                      {"mean", unit.of_si(overload.mean_si)},
                      {"first_at_s", overload.first.si()},
                      {"total_s", overload.total.si()},
                      {"longest_s", overload.longest.si()},
                      {"stands_s", overload.stands.si()},
                      {"source", overload.source}};
}

Json chatter_json(const run::Chatter& chatter) {
  return Json::Object{{"part", chatter.part},           {"words", chatter.words},
                      {"times", chatter.times},         {"first_at_s", chatter.first.si()},
                      {"last_at_s", chatter.last.si()}, {"period_s", chatter.period.si()}};
}

std::string_view ended_word(hybrid::Ended ended) {
  switch (ended) {
    case hybrid::Ended::AtTime: return "at its end";
    case hybrid::Ended::ByObserver: return "by an event";
    case hybrid::Ended::Restless: return "restless";
    case hybrid::Ended::OpenBooks: return "with its books open";
    case hybrid::Ended::Stuck: break;
  }
  return "stuck";
}

Json ending_json(const run::Record& record) {
  return Json::Object{{"how", ended_word(record.outcome.ended)},
                      {"at_s", record.outcome.time_s},
                      {"why", record.outcome.why},
                      {"is_partial", record.is_partial}};
}

Json trial_json(const Trial& trial) {
  return Json::Object{{"timeline", trial.record.timeline},
                      {"words", trial.words},
                      {"ambient_degc", trial.circumstances.ambient.celsius()},
                      {"cells_at_end_of_life", trial.circumstances.cells_aged},
                      {"ended", ending_json(trial.record)},
                      {"outages", list_of(trial.outages, outage_json)},
                      {"overloads", list_of(trial.record.overloads,
                                            [&](const run::Overload& overload) {
                                              return overload_json(overload, trial.record);
                                            })},
                      {"chatters", list_of(trial.record.chatters, chatter_json)},
                      {"books", books_json(trial.record.books)}};
}

Json extremes_json(const Prediction& prediction) {
  const std::vector<const Trial*> trials = prediction.trials();
  return list_of(question::extremes_of(trials), [&](const question::Extremes& one) {
    const papers::ChannelUnit unit = papers::unit_of(one.channel);
    return Json(Json::Object{{"part", one.channel.part},
                             {"name", one.channel.name},
                             {"unit", unit.plain},
                             {"lowest", unit.of_si(one.lowest.value_si)},
                             {"lowest_at_s", one.lowest.at.si()},
                             {"lowest_in", trials[one.lowest.trial]->words},
                             {"highest", unit.of_si(one.highest.value_si)},
                             {"highest_at_s", one.highest.at.si()},
                             {"highest_in", trials[one.highest.trial]->words}});
  });
}

Json leads_json(const Prediction& prediction) {
  return list_of(prediction.leads, [](const finding::LeadLoss& one) {
    return Json(Json::Object{{"lead", one.lead->name},
                             {"lasting_a", one.lasting.si()},
                             {"highest_a", one.highest.si()},
                             {"drop_v", one.drop.si()},
                             {"lost_j", one.lost.si()},
                             {"ampacity_share", one.ampacity.si()}});
  });
}

Json ways_json(const Prediction& prediction) {
  return list_of(prediction.ways, [](const finding::WayLoss& one) {
    return Json(Json::Object{
        {"load", one.load},
        {"current_a", one.current.si()},
        {"voltage_v", one.fed.si()},
        {"drop_v", one.drop.si()},
        {"leads", list_of(one.leads, [](const std::string& lead) { return Json(lead); })}});
  });
}

Json keeping_json(const question::Keeping& keeping) {
  if (!keeping.was_tried) return {};
  return Json::Object{{"lasts_s", optional_s(keeping.lasts)},
                      {"watched_s", keeping.watched.si()},
                      {"group", keeping.group}};
}

Json standby_json(const Prediction& prediction) {
  const question::Standby& standby = prediction.standby;
  return Json::Object{
      {"adapters",
       list_of(standby.adapters,
               [](const question::MeanPower& one) {
                 return Json(Json::Object{{"part", one.part}, {"gives_w", one.power.si()}});
               })},
      {"loads_w", standby.loads.si()},
      {"supply_w", standby.supply.si()},
      {"pack_gives_w", standby.pack.si()}};
}

Json verdict_json(const question::Verdict& verdict) {
  return Json::Object{
      {"outcome", finding::in_words(verdict.outcome)},
      {"states_needs", verdict.states_needs},
      {"is_met", verdict.is_met},
      {"headline", list_of(verdict.headline, [](const std::string& line) { return Json(line); })},
      {"judgements", list_of(verdict.judgements, [](const question::Judgement& one) {
         return Json(Json::Object{{"about", one.key()},
                                  {"answer", finding::in_words(one.answer)},
                                  {"sentence", one.sentence},
                                  {"remedy", one.remedy}});
       })}};
}

}  // namespace

Json::Object prediction_json(const Prediction& prediction) {
  Json::List trials;
  for (const Trial* trial : prediction.trials()) trials.push_back(trial_json(*trial));
  Json::List rooms = list_of(prediction.head_room, [](const question::HeadRoom& room) {
    return Json(Json::Object{{"adapter", room.adapter},
                             {"standby_share", room.standby.si()},
                             {"highest_share", room.highest.value_si},
                             {"highest_at_s", room.highest.at.si()},
                             {"lasting_share", room.lasting.value_si},
                             {"lasting_at_s", room.lasting.at.si()},
                             {"near_rating_s", room.near.si()}});
  });
  return {{"is_partial", prediction.is_partial},
          {"is_quick", prediction.is_quick},
          {"verdict", verdict_json(prediction.verdict)},
          {"findings", findings_json(prediction.verdict.findings)},
          {"trials", std::move(trials)},
          {"head_room", std::move(rooms)},
          {"standby", standby_json(prediction)},
          {"leads", leads_json(prediction)},
          {"ways", ways_json(prediction)},
          {"dark_after_cut_off", keeping_json(prediction.dark)},
          {"storage", keeping_json(prediction.storage)},
          {"extremes", extremes_json(prediction)}};
}

Json::Object record_json(const run::Record& record, Samples samples) {
  const std::vector<std::size_t> kept =
      samples == Samples::Taken ? question::kept_instants(record) : std::vector<std::size_t>{};
  Json::List channels;
  for (std::size_t c = 0; c < record.channels.size(); ++c) {
    const papers::ChannelUnit unit = papers::unit_of(record.channels[c]);
    Json::Object channel{
        {"part", record.channels[c].part}, {"name", record.channels[c].name}, {"unit", unit.plain}};
    if (samples == Samples::Taken && c < record.samples_si.size()) {
      channel.emplace_back("samples", list_of(kept, [&](std::size_t k) {
                             return Json(to_seven_digits(unit.of_si(record.samples_si[c][k])));
                           }));
    }
    channels.push_back(std::move(channel));
  }
  return {
      {"timeline", record.timeline},
      {"ended", ending_json(record)},
      {"stretches", list_of(record.stretches,
                            [](const run::StretchSpan& span) {
                              return Json(Json::Object{{"begins_at_s", span.begins.si()},
                                                       {"ends_at_s", span.ends.si()},
                                                       {"words", span.words},
                                                       {"has_mains", span.has_mains},
                                                       {"ended_as_asked", span.ended_as_asked}});
                            })},
      {"events", list_of(record.events,
                         [](const run::Event& event) {
                           return Json(Json::Object{{"at_s", event.at.si()},
                                                    {"part", event.part},
                                                    {"words", event.words}});
                         })},
      {"books", books_json(record.books)},
      {"instants_s", list_of(kept, [&](std::size_t k) { return Json(record.instants[k].si()); })},
      {"channels", std::move(channels)}};
}

}  // namespace tideover::service
