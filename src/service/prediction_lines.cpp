#include "service/prediction_lines.hpp"

#include <fmt/format.h>

#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::service {

using question::Answer;
using question::show_time;

namespace {

Tone tone_of(Answer answer) {
  switch (answer) {
    case Answer::Holds: return Tone::Good;
    case Answer::Tight: return Tone::Warning;
    case Answer::Fails: return Tone::Bad;
    case Answer::Unknown: break;
  }
  return Tone::Quiet;
}

std::string served_words(const question::Serving& serving, const question::Outage& outage) {
  std::string text = serving.load + ": ";
  if (!serving.served_before) return text + "not served";
  text += serving.lost_after ? "served for " + show_time(*serving.lost_after)
                             : "served to the end, " + show_time(outage.length());
  for (const question::Interruption& one : serving.interruptions) {
    text += fmt::format("; {} without service {}", show_time(one.length()), in_words(one.when));
  }
  if (serving.back_after) {
    text += fmt::format("; back {} after the mains", show_time(*serving.back_after));
  }
  return text;
}

void add_outages(const question::Trial& trial, std::vector<Line>& lines) {
  constexpr std::size_t most = 3;
  std::size_t told = 0;
  for (const question::Outage& outage : trial.outages) {
    if (told++ == most) {
      lines.push_back(
          {Tone::Quiet, fmt::format("  and {} outages more", trial.outages.size() - most)});
      return;
    }
    for (const question::Serving& serving : outage.servings) {
      lines.push_back({Tone::Plain, "  " + served_words(serving, outage)});
    }
    if (outage.cut_off) {
      lines.push_back(
          {Tone::Plain, fmt::format("  pack cut off after {}{}", show_time(*outage.cut_off),
                                    outage.ended_by.empty() ? "" : ": " + outage.ended_by)});
    }
    if (outage.full_after) {
      lines.push_back({Tone::Plain, "  full again after " + show_time(*outage.full_after)});
    }
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
  return prediction.verdict.outcome == Answer::Fails ? Status::NotMet : Status::Met;
}

std::vector<Line> prediction_lines(const build::Build& build,
                                   const question::Prediction& prediction) {
  std::vector<Line> lines;
  lines.push_back({Tone::Strong, build.title.empty() ? build.file : build.title});
  if (prediction.is_partial) lines.push_back({Tone::Bad, "Stopped: what follows is partial."});
  for (const std::string& sentence : prediction.verdict.headline)
    lines.push_back({Tone::Plain, sentence});
  if (prediction.verdict.outcome == Answer::Holds) {
    lines.push_back({Tone::Good, "Nothing fails and nothing is tight."});
  }
  for (const question::Judgement& one : prediction.verdict.judgements) {
    if (one.answer == Answer::Holds) continue;
    lines.push_back(
        {tone_of(one.answer), fmt::format("{:<8}{}", in_words(one.answer), one.sentence)});
    if (!one.remedy.empty()) lines.push_back({Tone::Plain, "        To change: " + one.remedy});
  }
  for (const question::Trial* trial : prediction.trials()) {
    if (trial->outages.empty()) continue;
    lines.push_back({});
    lines.push_back(
        {Tone::Strong, fmt::format("Timeline {}, {}", trial->record.timeline, trial->words)});
    add_outages(*trial, lines);
  }
  lines.push_back({});
  add_standing(prediction, lines);
  return lines;
}

}  // namespace tideover::service
