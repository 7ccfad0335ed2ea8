#include "question/judge_ratings.hpp"

#include <algorithm>
#include <set>
#include <string>

#include <fmt/format.h>

#include "question/phrases.hpp"

namespace tideover::question {

using run::Overload;

namespace {

/// Nearly all of its rating for less than this is a start, not a load. Assumed.
constexpr double brief_s = 60.0;

struct Worst {
  const Overload* overload = nullptr;
  const Trial* trial = nullptr;
};

bool is_worse(const Overload& a, const Overload& b) {
  return a.is_upper ? a.worst.value_si > b.worst.value_si : a.worst.value_si < b.worst.value_si;
}

Judgement judgement_of(const Worst& worst) {
  const Overload& overload = *worst.overload;
  const run::ChannelInfo& channel = worst.trial->record.channels[overload.channel];
  const std::string reached = show_value(channel, overload.worst.value_si);
  const std::string limit = show_value(channel, overload.limit_si);
  Judgement judgement{.about = "rating", .answer = Answer::Fails};
  judgement.sentence = fmt::format(
      "{}: {} {} against {} allowed at {} ({}, {}), {} in all from {} on ({}).", overload.part,
      channel.name, reached, limit, overload.is_upper ? "most" : "least", overload.rating,
      overload.source, show_time(overload.total), show_time(overload.first), worst.trial->words);
  judgement.remedy = fmt::format("{}: one made for {} or {}, or see to it that it gets {}.",
                                 overload.part, reached, overload.is_upper ? "more" : "less",
                                 overload.is_upper ? "less" : "more");
  return judgement;
}

/// Regulators stutter for a moment while everything collapses behind a pack that has been cut off,
/// and while everything starts again: nobody is served then.
bool is_harmless(const run::Chatter& chatter, const Trial& trial) {
  constexpr double moment_s = 10.0;
  if ((chatter.last - chatter.first).si() > moment_s) return false;
  return std::ranges::any_of(trial.outages, [&](const Outage& outage) {
    if (!outage.cut_off) return false;
    const double after_cut_s = (chatter.first - outage.begins - *outage.cut_off).si();
    const double after_return_s = (chatter.first - outage.ends).si();
    return after_cut_s >= 0.0 &&
           (after_cut_s < moment_s || (after_return_s >= 0.0 && after_return_s < moment_s));
  });
}

}  // namespace

std::vector<Judgement> judge_ratings(const Evidence& evidence) {
  std::vector<Worst> worst;
  for (const Trial* trial : {&evidence.usual, &evidence.worn, &evidence.hot}) {
    for (const Overload& overload : trial->record.overloads) {
      if (overload.longest <= overload.stands) continue;
      const auto same = std::ranges::find_if(worst, [&](const Worst& known) {
        return known.overload->part == overload.part && known.overload->rating == overload.rating;
      });
      if (same == worst.end()) {
        worst.push_back({&overload, trial});
      } else if (is_worse(overload, *same->overload)) {
        *same = {&overload, trial};
      }
    }
  }
  std::vector<Judgement> found;
  for (const Worst& one : worst) found.push_back(judgement_of(one));
  return found;
}

std::vector<Judgement> judge_head_room(const Evidence& evidence) {
  std::vector<Judgement> found;
  for (const HeadRoom& room : evidence.head_room) {
    // Above its rating it is a rating exceeded, and judged as one.
    if (room.near.si() <= brief_s || room.lasting.value_si > 1.0) continue;
    found.push_back(
        {"head-room", Answer::Tight,
         fmt::format("{} gives up to {:.0f} % of its rating, above {:.0f} % for {} ({}).",
                     room.adapter, 100.0 * room.lasting.value_si, 100.0 * tight_rating,
                     show_time(room.near), evidence.usual.words),
         room.adapter + ": let the charger take less, or use a stronger adapter."});
  }
  return found;
}

std::vector<Judgement> judge_chatter(const Evidence& evidence) {
  std::vector<Judgement> found;
  std::set<std::string> told;
  for (const Trial* trial : {&evidence.usual, &evidence.worn, &evidence.hot}) {
    for (const run::Chatter& chatter : trial->record.chatters) {
      if (is_harmless(chatter, *trial) || !told.insert(chatter.part).second) continue;
      found.push_back(
          {"chatter", Answer::Tight,
           fmt::format("{} {}, {} times, every {}, from {} on ({}).", chatter.part, chatter.words,
                       chatter.times, show_time(chatter.period), show_time(chatter.first),
                       trial->words),
           chatter.part +
               ": more distance between the values at which it acts and lets go again."});
    }
  }
  return found;
}

}  // namespace tideover::question
