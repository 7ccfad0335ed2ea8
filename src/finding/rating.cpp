#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using run::Overload;

namespace {

struct KindRating {
  std::string_view kind;
  std::string_view rating;
};
/// Ratings that a rule of their own judges.
constexpr std::array told_elsewhere{
    KindRating{"load", "highest input voltage"},
    KindRating{"adapter", "rating left at its temperature"},
    KindRating{"adapter", "rated current"},
    KindRating{"adapter", "body at full rating"},
    KindRating{"converter", "highest input voltage"},
    KindRating{"charger", "highest input voltage"},
    KindRating{"converter", "rated current"},
    KindRating{"converter", "thermal shutdown"},
    KindRating{"charger", "thermal shutdown"},
    KindRating{"pack", "charge current"},
    KindRating{"pack", "discharge current"},
    KindRating{"pack", "lowest temperature to charge at"},
    KindRating{"pack", "highest temperature to charge at"},
    KindRating{"pack", "highest temperature"},
    KindRating{"pack", "lowest temperature"},
    KindRating{"protection-board", "continuous discharge current"},
    KindRating{"protection-board", "highest temperature"},
    KindRating{"resistor", "body temperature"},
    KindRating{"box", "wall temperature that hands may meet"},
    KindRating{"fuse", "continuous current"},
    KindRating{"relay", "contact current"},
    KindRating{"diode", "forward current"},
    KindRating{"diode", "junction temperature"},
    KindRating{"ideal-diode", "rated current"},
    KindRating{"ideal-diode", "junction temperature"},
    KindRating{"polarity-guard", "rated current"},
    KindRating{"polarity-guard", "junction temperature"},
    KindRating{"capacitor", "voltage"},
    KindRating{"connector", "contact current"},
    KindRating{"terminal-block", "clamp current"},
    KindRating{"switch", "contact current"},
};

bool is_told_elsewhere(const build::Build& build, const Overload& overload) {
  if (overload.part.starts_with("leads.") && overload.rating == "ampacity") return true;
  const part::Part* const part = build.find(overload.part);
  return part != nullptr && std::ranges::any_of(told_elsewhere, [&](const KindRating& one) {
           return part->description().name == one.kind && overload.rating == one.rating;
         });
}

/// An overload as a builder would tell it. A lower limit of a current or voltage that lies below
/// zero is an upper one for what flows or stands the other way: charging, a reverse voltage.
struct Told {
  std::string subject;  ///< "discharge current"; the other way round what the rating limits
  std::string worst = {};
  std::string limit = {};
  std::string mean = {};  ///< empty where the worst is the rule
  bool is_upper = true;
  double sign = 1.0;
};

Told told_of(const Overload& overload, const run::ChannelInfo& channel) {
  const bool is_turned = !overload.is_upper && !channel.is_temperature && overload.limit_si < 0.0 &&
                         overload.worst.value_si < 0.0;
  Told told{.subject = is_turned ? overload.rating : channel.name,
            .is_upper = overload.is_upper || is_turned,
            .sign = is_turned ? -1.0 : 1.0};
  std::tie(told.worst, told.limit) =
      show_apart(channel, told.sign * overload.worst.value_si, told.sign * overload.limit_si);
  // A peak of a millisecond says nothing of the hours in which the limit is exceeded by little.
  const double beyond = std::abs(overload.worst.value_si - overload.limit_si);
  const double usually = std::abs(overload.mean_si - overload.limit_si);
  if (overload.total.si() > 0.0 && usually < 0.8 * beyond) {
    told.mean =
        show_apart(channel, told.sign * overload.mean_si, told.sign * overload.limit_si).first;
  }
  return told;
}

std::string remedy_of(const Overload& overload, const run::ChannelInfo& channel, const Told& told) {
  if (channel.is_temperature) {
    return told.is_upper
               ? overload.part + ": more air past it, a cooler place, or less to carry."
               : fmt::format("{}: see to it that it stays above {}.", overload.part, told.limit);
  }
  if (!told.is_upper) {
    return fmt::format("{}: what cuts off must do so sooner, above {}.", overload.part, told.limit);
  }
  const std::string made = told.mean.empty() ? told.worst + " or more"
                                             : told.mean + " or more, and peaks of " + told.worst;
  return fmt::format("{}: one made for {}, or see to it that it gets less.", overload.part, made);
}

Finding finding_of(const Exceeded& one) {
  const Overload& overload = *one.overload;
  const run::ChannelInfo& channel = one.in->record->channels[overload.channel];
  const Told told = told_of(overload, channel);
  const quantity::Measure measure{channel.dimension, channel.is_temperature};
  const std::string reached = told.mean.empty()
                                  ? told.worst
                                  : fmt::format("{} on average and {} at its {}", told.mean,
                                                told.worst, told.is_upper ? "highest" : "lowest");
  Finding finding{.part = overload.part,
                  .answer = Answer::Fails,
                  .measured = Figure{told.sign * overload.worst.value_si, measure},
                  .limit = Figure{told.sign * overload.limit_si, measure}};
  if (!channel.is_temperature) {
    finding.margin = margin_of(finding.measured->value_si, finding.limit->value_si,
                               told.is_upper ? Limits::Above : Limits::Below);
  }
  finding.sentence = fmt::format(
      "{}: {} {} against {} allowed at {} ({}, {}), {}.", overload.part, told.subject, reached,
      told.limit, told.is_upper ? "most" : "least", overload.rating, overload.source, one.words());
  finding.advice = remedy_of(overload, channel, told);
  finding.brief = fmt::format("{} of {} {} what it is made for", told.subject, overload.part,
                              told.is_upper ? "above" : "below");
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const Exceeded& one : all_exceeded(evidence)) {
    if (!is_told_elsewhere(evidence.build, *one.overload)) found.push_back(finding_of(one));
  }
  return found;
}

}  // namespace

const Rule& rating() {
  static const Rule rule{
      .key = "rating",
      .title = "Ratings of parts",
      .words = "No part gets more of anything than it is made for, longer than it stands.",
      .formula = "X <= X_rated, for longer than it may be exceeded",
      .source = "the parts' data sheets, as stated with each",
      .caution = {},
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
