#include "question/judge_ratings.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <tuple>

#include <fmt/format.h>

#include "quantity/show.hpp"
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

/// An overload as a builder would tell it. A lower limit of a current or voltage that lies below
/// zero is an upper one for what flows or stands the other way: charging, a reverse voltage.
struct Told {
  std::string subject;  ///< "discharge current"; the other way round what the rating limits
  std::string worst = {};
  std::string limit = {};
  std::string mean = {};  ///< empty where the worst is the rule
  bool is_upper = true;
};

Told told_of(const Overload& overload, const run::ChannelInfo& channel) {
  const bool is_turned = !overload.is_upper && !channel.is_temperature && overload.limit_si < 0.0 &&
                         overload.worst.value_si < 0.0;
  const double sign = is_turned ? -1.0 : 1.0;
  Told told{.subject = is_turned ? overload.rating : channel.name,
            .is_upper = overload.is_upper || is_turned};
  std::tie(told.worst, told.limit) =
      show_apart(channel, sign * overload.worst.value_si, sign * overload.limit_si);
  // A peak of a millisecond says nothing of the hours in which the limit is exceeded by little.
  const double beyond = std::abs(overload.worst.value_si - overload.limit_si);
  const double usually = std::abs(overload.mean_si - overload.limit_si);
  if (overload.total.si() > 0.0 && usually < 0.8 * beyond) {
    told.mean = show_apart(channel, sign * overload.mean_si, sign * overload.limit_si).first;
  }
  return told;
}

std::string remedy_of(const Overload& overload, const run::ChannelInfo& channel, const Told& told) {
  const std::string part = name_in_words(overload.part);
  if (channel.is_temperature) {
    return told.is_upper ? part + ": more air past it, a cooler place, or less to carry."
                         : fmt::format("{}: see to it that it stays above {}.", part, told.limit);
  }
  if (!told.is_upper) {
    return fmt::format("{}: what cuts off must do so sooner, above {}.", part, told.limit);
  }
  const std::string made = told.mean.empty() ? told.worst + " or more"
                                             : told.mean + " or more, and peaks of " + told.worst;
  return fmt::format("{}: one made for {}, or see to it that it gets less.", part, made);
}

Judgement judgement_of(const Worst& worst) {
  const Overload& overload = *worst.overload;
  const run::ChannelInfo& channel = worst.trial->record.channels[overload.channel];
  const Told told = told_of(overload, channel);
  const std::string part = name_in_words(overload.part);
  const std::string reached = told.mean.empty()
                                  ? told.worst
                                  : fmt::format("{} on average and {} at its {}", told.mean,
                                                told.worst, told.is_upper ? "highest" : "lowest");
  Judgement judgement{.about = Matter::Rating, .answer = Answer::Fails};
  judgement.sentence =
      fmt::format("{}: {} {} against {} allowed at {} ({}, {}), {} in all, first {} ({}).", part,
                  told.subject, reached, told.limit, told.is_upper ? "most" : "least",
                  overload.rating, overload.source, show_time(overload.total),
                  show_instant(overload.first, worst.trial->outages), worst.trial->words);
  judgement.remedy = remedy_of(overload, channel, told);
  judgement.brief = fmt::format("{} of {} {} what it is made for", told.subject, part,
                                told.is_upper ? "above" : "below");
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
  for (const Trial* trial : evidence.trials()) {
    for (const Overload& overload : trial->record.overloads) {
      if (overload.is_polarity || overload.longest <= overload.stands) continue;
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
  found.reserve(worst.size());
  for (const Worst& one : worst) found.push_back(judgement_of(one));
  return found;
}

std::vector<Judgement> judge_head_room(const Evidence& evidence) {
  std::vector<Judgement> found;
  for (const HeadRoom& room : evidence.head_room) {
    // Above its rating it is a rating exceeded, and judged as one.
    if (room.near.si() <= brief_s || room.lasting.value_si > 1.0) continue;
    found.push_back(
        {Matter::HeadRoom, Answer::Tight,
         fmt::format("{} gives up to {:.0f} % of its rating, above {:.0f} % for {} ({}).",
                     room.adapter, 100.0 * room.lasting.value_si, 100.0 * tight_rating,
                     show_time(room.near), evidence.usual.words),
         room.adapter + ": let the charger take less, or use a stronger adapter."});
  }
  return found;
}

std::vector<Judgement> judge_wire_loss(const Evidence& evidence) {
  std::vector<Judgement> found;
  for (const WayLoss& way : evidence.ways) {
    if (way.share() <= wire_loss_share || way.leads.empty()) continue;
    const std::string& worst = way.leads.front();
    found.push_back(
        {Matter::WireLoss, Answer::Tight,
         fmt::format("{} loses {} of {} in its own leads, {:.0f} %, at {}; most of it in {} ({}).",
                     way.load, quantity::show(way.drop), quantity::show(way.fed),
                     100.0 * way.share(), quantity::show(way.current), worst, evidence.usual.words),
         worst + ": thicker or shorter, and the lead that goes back with it."});
  }
  return found;
}

std::vector<Judgement> judge_chatter(const Evidence& evidence) {
  std::vector<Judgement> found;
  std::set<std::string> told;
  for (const Trial* trial : evidence.trials()) {
    for (const run::Chatter& chatter : trial->record.chatters) {
      if (is_harmless(chatter, *trial) || !told.insert(chatter.part).second) continue;
      found.push_back(
          {Matter::Chatter, Answer::Tight,
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
