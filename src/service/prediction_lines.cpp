#include "service/prediction_lines.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "finding/counts.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"
#include "service/finding_lines.hpp"

namespace tideover::service {

using finding::Answer;
using question::show_time;

namespace {

std::string served_words(const question::Serving& serving, const question::Outage& outage) {
  std::string text = serving.load + ": ";
  if (!serving.served_before) return text + "not served";
  text += serving.lost_after ? "served for " + show_time(*serving.lost_after)
                             : "served to the end, " + show_time(outage.length());
  using When = question::Interruption::When;
  for (const When when : {When::AtLoss, When::During, When::AtReturn}) {
    const std::string lengths = lengths_in_words(serving.interruptions, when);
    if (!lengths.empty()) text += fmt::format("; {} without service {}", lengths, in_words(when));
  }
  if (serving.back_after) {
    text += fmt::format("; back {} after the mains", show_time(*serving.back_after));
  }
  return text;
}

void add_outage(const question::Outage& outage, std::vector<Line>& lines) {
  for (const question::Serving& serving : outage.servings) {
    lines.push_back({Tone::Plain, "  " + served_words(serving, outage)});
  }
  if (!outage.carried_whole && !outage.ended_by.empty()) {
    lines.push_back({Tone::Plain, "  what took the first of them: " + outage.ended_by});
  }
  if (outage.cut_off) {
    const bool is_told = outage.cut_off_by.empty() || outage.cut_off_by == outage.ended_by;
    lines.push_back(
        {Tone::Plain, fmt::format("  pack cut off after {}{}", show_time(*outage.cut_off),
                                  is_told ? "" : ": " + outage.cut_off_by)});
  }
  if (outage.full_after) {
    lines.push_back({Tone::Plain, "  full again after " + show_time(*outage.full_after)});
  }
}

bool has_losses(const question::Trial& trial) {
  return std::ranges::any_of(trial.outages, [](const question::Outage& outage) {
    return !outage.carried_whole ||
           std::ranges::any_of(outage.servings, [](const question::Serving& serving) {
             return !serving.interruptions.empty();
           });
  });
}

/// Outages in which nothing happens to a load are one line together.
void add_calm_outages(const question::Trial& trial, std::vector<Line>& lines) {
  const auto [shortest, longest] = std::ranges::minmax(
      trial.outages, {}, [](const question::Outage& outage) { return outage.length().si(); });
  std::string text = fmt::format("  {} of {}", question::counted(trial.outages.size(), "outage"),
                                 show_time(shortest.length()));
  if (show_time(shortest.length()) != show_time(longest.length())) {
    text += " to " + show_time(longest.length());
  }
  lines.push_back({Tone::Plain, text + ": every device served throughout"});
}

void add_outages(const question::Trial& trial, std::vector<Line>& lines) {
  constexpr std::size_t most = 3;
  lines.push_back({});
  lines.push_back({Tone::Strong, "Timeline " + (trial.words.starts_with(trial.record.timeline)
                                                    ? trial.words
                                                    : trial.record.timeline + ", " + trial.words)});
  if (trial.outages.size() > 1 && !has_losses(trial)) {
    add_calm_outages(trial, lines);
    return;
  }
  for (std::size_t k = 0; k < std::min(most, trial.outages.size()); ++k) {
    add_outage(trial.outages[k], lines);
  }
  if (trial.outages.size() > most) {
    lines.push_back(
        {Tone::Quiet,
         fmt::format("  and {} more", question::counted(trial.outages.size() - most, "outage"))});
  }
}

/// Of timelines that do not lead, worn cells and heat are told where they change anything.
void add_timelines(const question::Prediction& prediction, std::vector<Line>& lines) {
  for (const question::Trial* trial : prediction.judged()) {
    if (!trial->outages.empty()) add_outages(*trial, lines);
  }
  for (const question::Trial& trial : prediction.others) {
    const bool is_usual = question::are_same(trial.circumstances, prediction.usual.circumstances);
    if (!trial.outages.empty() && (is_usual || has_losses(trial))) add_outages(trial, lines);
  }
}

void add_ways(const question::Prediction& prediction, std::vector<Line>& lines) {
  for (const finding::WayLoss& way : prediction.ways) {
    if (way.leads.empty()) continue;
    lines.push_back(
        {Tone::Plain, fmt::format("  {} loses {} of {} in its own leads at {}, most of it in {}",
                                  way.load, quantity::show(way.drop), quantity::show(way.fed),
                                  quantity::show(way.current), way.leads.front())});
  }
}

void add_standing(const question::Prediction& prediction, std::vector<Line>& lines) {
  const question::Standby& standby = prediction.standby;
  lines.push_back({Tone::Strong, "While all is well"});
  for (const question::MeanPower& one : standby.adapters) {
    std::string text = fmt::format("  {} gives {}", one.part, quantity::show(one.power));
    for (const question::HeadRoom& room : prediction.head_room) {
      if (room.adapter != one.part) continue;
      text += fmt::format(", {:.0f} % of its rating; at most {:.0f} %", 100.0 * room.standby.si(),
                          100.0 * room.lasting.value_si);
    }
    lines.push_back({Tone::Plain, text});
  }
  lines.push_back({Tone::Plain, "  the supply itself takes " + quantity::show(standby.supply)});
  add_ways(prediction, lines);
  const auto keeping = [&](const question::Keeping& one, const std::string& from) {
    if (!one.was_tried) return;
    lines.push_back({Tone::Plain, fmt::format("  {}: cells above their lowest voltage for {}{}",
                                              from, one.lasts ? "" : "more than ",
                                              show_time(one.lasts.value_or(one.watched)))});
  };
  keeping(prediction.dark, "after a cut-off, mains still away");
  keeping(prediction.storage, "switched off in store");
}

}  // namespace

Status status_of(const question::Prediction& prediction) {
  if (prediction.is_partial) return Status::Stopped;
  return prediction.verdict.is_met ? Status::Met : Status::NotMet;
}

std::vector<Line> prediction_lines(const build::Build& build,
                                   const question::Prediction& prediction) {
  std::vector<Line> lines;
  lines.push_back({Tone::Strong, build.title.empty() ? build.file : build.title});
  if (prediction.is_partial) lines.push_back({Tone::Bad, "Stopped: what follows is partial."});
  for (const std::string& sentence : prediction.verdict.headline)
    lines.push_back({Tone::Plain, sentence});
  if (prediction.verdict.outcome == Answer::Holds && prediction.verdict.states_needs) {
    lines.push_back(
        {Tone::Good, "Every need is met; in these runs nothing fails and nothing is tight."});
  }
  for (const question::Judgement& one : prediction.verdict.judgements) {
    if (one.answer == Answer::Holds) continue;
    lines.push_back(
        {tone_of(one.answer), fmt::format("{:<8}{}", in_words(one.answer), one.sentence)});
    if (one.remedy.empty()) continue;
    lines.push_back({Tone::Plain, (one.answer == Answer::Unknown ? "        To know it: "
                                                                 : "        To change: ") +
                                      one.remedy});
  }
  if (const auto others = finding::others_in_words(prediction.verdict.findings); !others.empty()) {
    lines.push_back({Tone::Quiet, others + "; `tideover check` lists them."});
  }
  add_timelines(prediction, lines);
  lines.push_back({});
  add_standing(prediction, lines);
  return lines;
}

}  // namespace tideover::service
