#include "finding/carried.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "finding/advice.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Second;

namespace {

/// So that what is advised is not tight by the last digit.
constexpr double hair = 1e-6;

}  // namespace

std::string next_larger(Ampere least) {
  const double least_a = std::max(least.si(), 1e-3);
  const double step_a = std::pow(10.0, std::floor(std::log10(least_a)) - 1.0);
  return rounded_up(Ampere::of_si(least_a), Ampere::of_si(step_a));
}

std::optional<Reached> most_carried(const Evidence& evidence, std::string_view part,
                                    std::string_view channel, Second lasts) {
  auto most = lasting_worst(evidence, part, channel, Limits::Above, lasts);
  const auto back = lasting_worst(evidence, part, channel, Limits::Below, lasts);
  if (!most || !back) return most;
  if (-back->value_si > most->value_si) {
    most = back;
    most->value_si = -back->value_si;
  }
  return most;
}

std::optional<Carried> carried_by(const Evidence& evidence, std::string_view part,
                                  std::string_view channel, std::string_view rating) {
  const auto most = most_carried(evidence, part, channel);
  if (const auto over = exceeded(evidence, part, rating)) {
    // The filling of a capacitor may be a hundred times what lasts: the mean tells what to choose.
    const double lasts_a = most ? most->value_si : 0.0;
    return Carried{std::max(std::abs(over->overload->mean_si), lasts_a), over->words(), true};
  }
  if (!most) return std::nullopt;
  return Carried{most->value_si, when_and_where(*most)};
}

std::optional<Finding> judge_current(const Evidence& evidence, const RatedCurrent& current) {
  const auto carried = carried_by(evidence, current.part, current.channel, current.rating);
  if (!carried) return std::nullopt;
  const std::string most = shown<Ampere>(carried->size_a, 3);
  const std::string enough =
      next_larger(Ampere::of_si(carried->size_a / (1.0 - tight_share) * (1.0 + hair)));
  if (!current.rated->given) {
    return Finding{.part = current.part,
                   .answer = Answer::Unknown,
                   .sentence = fmt::format("{} carries {}, {}; what it is rated for is not given.",
                                           current.carries, most, carried->when),
                   .advice = fmt::format("{}: {} = what its sheet or its body says; {} would do.",
                                         current.part, current.key, enough),
                   .unknown = {current.part + "." + current.key}};
  }
  Finding finding =
      measured_against<Ampere>(current.part, carried->size_a, current.rated->low_si, Limits::Above);
  if (carried->is_too_much) finding.answer = Answer::Fails;
  finding.sentence = fmt::format("{} carries {}, {}, and is rated {}.", current.carries, most,
                                 carried->when, shown<Ampere>(current.rated->low_si, 3));
  if (finding.answer != Answer::Holds) {
    finding.advice = fmt::format("{}: {} = {} or more.", current.part, current.key, enough);
    finding.brief = fmt::format("{} carries more than it should", current.part);
  }
  return finding;
}

}  // namespace tideover::finding
