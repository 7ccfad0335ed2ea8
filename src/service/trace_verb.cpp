#include "service/trace_verb.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/axis.hpp"
#include "drawing/time_words.hpp"
#include "papers/channel_unit.hpp"
#include "question/calm.hpp"
#include "question/glance.hpp"
#include "question/laboratory.hpp"
#include "question/trace.hpp"
#include "service/project.hpp"

namespace tideover::service {

using question::Trial;

namespace {

struct Sort {
  std::string_view unit;
  std::string_view quantity;
  int decimals;
};
constexpr Sort sorts[] = {{"V", "voltage", 2},       {"A", "current", 3}, {"W", "power", 2},
                          {"Wh", "energy", 2},       {"Ah", "charge", 3}, {"%", "share", 1},
                          {"degC", "temperature", 1}};

std::string place_of(const std::string& part) {
  return part.starts_with("leads.") ? "lead:" + part.substr(6) : "part:" + part;
}

/// As many decimals as are shown, and two more for lines that are drawn.
double rounded(double value, int decimals) {
  const double fine = std::pow(10.0, decimals + 2);
  return std::round(value * fine) / fine;
}

std::string words_of(double at_s, double gap_s) {
  const double fine_s = std::pow(10.0, std::floor(std::log10(std::max(gap_s, 1e-6))));
  return drawing::time_label(at_s, std::min(1.0, fine_s));
}

Json::List channels_json(const run::Record& record, const std::vector<std::size_t>& kept) {
  Json::List all;
  for (std::size_t c = 0; c < record.channels.size(); ++c) {
    const run::ChannelInfo& channel = record.channels[c];
    const papers::ChannelUnit unit = papers::unit_of(channel);
    const auto* const sort = std::ranges::find(sorts, unit.plain, &Sort::unit);
    if (sort == std::end(sorts) || channel.name == "position") continue;
    Json::List values;
    values.reserve(kept.size());
    for (const std::size_t k : kept) {
      values.emplace_back(rounded(unit.of_si(record.samples_si[c][k]), sort->decimals));
    }
    const std::string place = place_of(channel.part);
    all.emplace_back(Json::Object{{"name", channel.name},
                                  {"place", place},
                                  {"quantity", sort->quantity},
                                  {"unit", unit.printed},
                                  {"decimals", sort->decimals},
                                  {"label", place.substr(5) + " " + channel.name},
                                  {"values", std::move(values)}});
  }
  return all;
}

Json span_json(double from_s, double to_s, std::string_view words) {
  return Json::Object{{"from_s", from_s}, {"to_s", to_s}, {"words", words}};
}

Json::List served_spans(const run::Service& service, double end_s) {
  Json::List spans;
  double clear_s = 0.0;
  for (const auto& [from, to] : service.served) {
    if (from.si() > clear_s) spans.push_back(span_json(clear_s, from.si(), "not served"));
    spans.push_back(span_json(from.si(), to.si(), "served"));
    clear_s = to.si();
  }
  if (clear_s < end_s) spans.push_back(span_json(clear_s, end_s, "not served"));
  return spans;
}

Json::List position_spans(const run::Record& record, std::size_t c) {
  const std::vector<double>& at = record.samples_si[c];
  Json::List spans;
  std::size_t from = 0;
  for (std::size_t k = 1; k <= at.size(); ++k) {
    if (k < at.size() && at[k] == at[from]) continue;
    const std::size_t to = std::min(k, at.size() - 1);
    std::string_view words = "between its contacts";
    if (at[from] < 0.25) words = "at rest";
    if (at[from] > 0.75) words = "working";
    spans.push_back(span_json(record.instants[from].si(), record.instants[to].si(), words));
    from = k;
  }
  return spans;
}

Json::List states_json(const run::Record& record, double end_s) {
  Json::List states;
  const auto add = [&](const std::string& part, Json::List spans) {
    states.emplace_back(
        Json::Object{{"place", "part:" + part}, {"label", ""}, {"spans", std::move(spans)}});
  };
  for (const run::Service& service : record.services) {
    add(service.load, served_spans(service, end_s));
  }
  for (std::size_t c = 0; c < record.channels.size(); ++c) {
    if (record.channels[c].name != "position") continue;
    add(record.channels[c].part, position_spans(record, c));
  }
  return states;
}

Json::Object trace_json(const Trial& trial) {
  const run::Record& record = trial.record;
  const std::vector<std::size_t> kept = question::told_instants(record);
  const double end_s = record.instants.empty() ? 0.0 : record.instants.back().si();
  Json::List instants_s;
  Json::List instants;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const double at_s = record.instants[kept[i]].si();
    const double gap_s = i == 0 ? 1.0 : at_s - record.instants[kept[i - 1]].si();
    instants_s.emplace_back(at_s);
    instants.emplace_back(words_of(at_s, gap_s));
  }
  Json::List events;
  for (const run::Event& event : record.events) {
    events.emplace_back(Json::Object{{"at_s", event.at.si()},
                                     {"at_words", words_of(event.at.si(), 1e-3)},
                                     {"who", event.part},
                                     {"words", event.words}});
  }
  Json::List folds;
  Json::List ticks;
  for (const question::Fold& fold : question::folds_of(record)) {
    folds.emplace_back(
        Json::Object{{"from_s", fold.from_s}, {"to_s", fold.to_s}, {"share", fold.share}});
    const int most = std::max(1, static_cast<int>(16.0 * fold.share));
    for (const drawing::Tick& tick : drawing::time_ticks({fold.from_s, fold.to_s}, most)) {
      ticks.emplace_back(Json::Object{{"at_s", tick.at}, {"words", tick.label}});
    }
  }
  return {{"timeline", record.timeline},
          {"circumstance", trial.words},
          {"ends_s", end_s},
          {"instants_s", std::move(instants_s)},
          {"instants", std::move(instants)},
          {"channels", channels_json(record, kept)},
          {"states", states_json(record, end_s)},
          {"events", std::move(events)},
          {"folds", std::move(folds)},
          {"ticks", std::move(ticks)},
          {"summary", Json::List{}}};
}

Trial trial_of(const build::Build& build, const build::Timeline& timeline, bool is_quick,
               base::Progress& progress) {
  const auto under = question::circumstances_of(build).front();
  const build::Build asked = is_quick ? question::without_bursts(build) : build.copy();
  return question::trial_of(
      question::what_was_begun(run::run(asked, timeline, under, {}, progress)), under);
}

Reply trace(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const auto timelines = question::timelines_of(build.value());
  const bool is_quick = request.option("--quick").has_value();
  const auto name = request.option("--timeline");
  auto picked = std::ranges::find_if(timelines, [&](const build::Timeline& one) {
    return question::can_judge(one, build.value().needs);
  });
  if (picked == timelines.end()) picked = timelines.begin();
  if (name) {
    picked = std::ranges::find(timelines, *name, &build::Timeline::name);
    if (picked == timelines.end()) {
      std::vector<std::string> names;
      for (const build::Timeline& one : timelines) names.push_back(one.name);
      return no_such_word("timeline", *name, names);
    }
  }
  const Trial trial = is_quick && !name ? question::glance(build.value(), {}, progress).usual
                                        : trial_of(build.value(), *picked, is_quick, progress);
  Reply reply{.status = trial.is_whole() ? Status::Met : Status::NotMet};
  if (trial.record.is_partial) reply.status = Status::Stopped;
  reply.lines.push_back({Tone::Strong, trial.record.timeline + ", " + trial.words});
  for (const run::Event& event : trial.record.events) {
    reply.lines.push_back(
        {Tone::Plain, words_of(event.at.si(), 1e-3) + "  " + event.part + " " + event.words});
  }
  reply.json = with_preamble("trace", build.value(), trace_json(trial));
  return reply;
}

}  // namespace

Verb trace_verb() {
  return {"trace",
          "one run through time: what happens when",
          "Runs the build through one timeline, the first of the sheet that can judge its needs or "
          "the one named, with the "
          "cells as they are in the middle of the stated ambient, and tells its events; with "
          "--json also every recorded quantity at up to 800 instants. Writes nothing.",
          true,
          trace,
          {},
          {},
          {{"--timeline", "NAME", "which timeline of the sheet"},
           {"--quick", "", "devices at their mean draw, at once"}}};
}

}  // namespace tideover::service
