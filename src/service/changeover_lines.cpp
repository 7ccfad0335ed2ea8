#include "service/changeover_lines.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "quantity/show.hpp"
#include "question/changeover_phrases.hpp"
#include "question/phrases.hpp"

namespace tideover::service {

using quantity::show;
using question::Changeover;
using question::Changeovers;
using question::ChangeView;
using question::Passage;
using Outcome = Passage::Outcome;

namespace {

Tone tone_of(const Passage& passage) {
  if (passage.outcome == Outcome::Fails) return Tone::Bad;
  if (passage.is_tight()) return Tone::Warning;
  return passage.outcome == Outcome::InRange || passage.outcome == Outcome::Rides ? Tone::Good
                                                                                  : Tone::Quiet;
}

void add_load(const Changeover& change, std::size_t load, std::vector<Line>& lines) {
  const question::AcceptedRange& accepts = change.views.front().passages[load].accepts;
  lines.push_back({Tone::Plain,
                   fmt::format("  {} (accepts {} to {}, rides {})", accepts.load, show(accepts.low),
                               show(accepts.high), question::show_time(accepts.rides))});
  for (const ChangeView& view : change.views) {
    const Passage& passage = view.passages[load];
    lines.push_back(
        {tone_of(passage), fmt::format("    {}: {}", view.words,
                                       question::voltage_words(passage) + verdict_of(passage))});
  }
}

void add_chain(const ChangeView& view, std::vector<Line>& lines) {
  constexpr std::size_t most = 20;
  const auto& events = view.trial.record.events;
  for (std::size_t k = 0; k < std::min(most, events.size()); ++k) {
    lines.push_back({Tone::Quiet, fmt::format("  {:>10.2f} ms  {} {}", 1e3 * events[k].at.si(),
                                              events[k].part, events[k].words)});
  }
  if (events.size() > most) {
    lines.push_back({Tone::Quiet, fmt::format("  and {} more",
                                              question::counted(events.size() - most, "event"))});
  }
}

void add_change(const Changeover& change, std::vector<Line>& lines) {
  lines.push_back({});
  std::string title = title_of(change);
  if (change.times > 1) title += fmt::format(" ({} times; the hardest is told)", change.times);
  lines.push_back({Tone::Strong, title});
  if (change.views.empty()) return;
  for (std::size_t k = 0; k < change.views.front().passages.size(); ++k) {
    add_load(change, k, lines);
  }
  const ChangeView& told = change.hardest_view();
  lines.push_back({Tone::Plain, "  what happens, " + told.words + ":"});
  add_chain(told, lines);
  for (const question::HoldUp& answer : change.hold_ups) {
    for (const std::string& sentence : sentences_of(answer)) {
      lines.push_back({Tone::Plain, "  " + answer.load + ": " + sentence});
    }
  }
}

}  // namespace

Status status_of(const Changeovers& changes) {
  if (changes.is_partial) return Status::Stopped;
  return changes.rides_through() ? Status::Met : Status::NotMet;
}

std::vector<Line> changeover_headline(const Changeovers& changes) {
  std::vector<Line> lines{{}, {Tone::Strong, "When the source changes"}};
  for (const std::string& sentence : headline_of(changes)) {
    lines.push_back({Tone::Plain, "  " + sentence});
  }
  return lines;
}

std::vector<Line> changeover_lines(const build::Build& build, const Changeovers& changes) {
  std::vector<Line> lines;
  lines.push_back({Tone::Strong, build.title.empty() ? build.file : build.title});
  if (changes.is_partial) lines.push_back({Tone::Bad, "Stopped: what follows is partial."});
  for (const std::string& sentence : headline_of(changes)) {
    lines.push_back({Tone::Plain, sentence});
  }
  for (const Changeover& change : changes.changes) add_change(change, lines);
  return lines;
}

}  // namespace tideover::service
