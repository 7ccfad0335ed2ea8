#include "question/hidden_fault.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "quantity/show.hpp"
#include "run/circuit.hpp"

namespace tideover::question {

using build::Build;
using run::Record;

namespace {

struct Words {
  std::string_view name;
  double minutes;
};
constexpr std::array<Words, 8> words_of{{
    {"look at it", 1.0},
    {"a meter outside the box", 3.0},
    {"pull the adapters for a minute and look", 4.0},
    {"pull the adapters for a minute, a meter outside the box", 6.0},
    {"open the box and look", 10.0},
    {"open the box, a meter inside", 15.0},
    {"open the box, pull the adapters for a minute, a meter inside", 18.0},
    {"let it run on the pack until it is empty", 400.0},
}};

/// What a meter tells apart: more than its own error and than the build's tolerances.
constexpr double told_apart_share = 0.05;
constexpr double told_apart_v = 0.2;
/// A lamp at a fifth of its current is out, and so is one at less than what an LED needs to be seen
/// by day; a fan stands still. Assumed.
constexpr double dark_share = 0.2;
constexpr double seen_a = 100e-6;

double value_at(const Record& record, std::size_t channel, double at_s) {
  const auto& instants = record.instants;
  const auto after = std::ranges::upper_bound(instants, at_s, {}, &quantity::Second::si);
  if (after == instants.begin()) return record.samples_si[channel].front();
  return record.samples_si[channel][static_cast<std::size_t>(after - instants.begin()) - 1];
}

/// What is lost at that very instant does not serve any more.
bool serves_at(const run::Service& service, double at_s) {
  return std::ranges::any_of(service.served, [&](const run::Service::Interval& interval) {
    return interval.from.si() <= at_s && interval.to.si() > at_s;
  });
}

/// The two builds at the same instant.
class Comparison {
 public:
  Comparison(const Build& build, const Record& sound, double sound_at_s, const Record& faulty,
             double faulty_at_s)
      : build_(build),
        sound_(sound),
        faulty_(faulty),
        sound_at_s_(sound_at_s),
        faulty_at_s_(faulty_at_s) {}

  [[nodiscard]] std::optional<std::string> by_eye() const {
    for (std::size_t k = 0; k < sound_.services.size(); ++k) {
      const run::Service& one = sound_.services[k];
      const bool is_served = serves_at(faulty_.services[k], faulty_at_s_);
      if (serves_at(one, sound_at_s_) == is_served) continue;
      return one.load + (is_served ? " is served, not when sound" : " is not served");
    }
    for (const auto& part : build_.parts) {
      if (auto seen = by_lamp(*part)) return seen;
    }
    return std::nullopt;
  }

  /// The test point, inside the box or outside, that differs most.
  [[nodiscard]] std::optional<std::string> by_meter(bool inside) const {
    std::optional<std::string> best;
    double most = 0.0;
    for (const auto& part : build_.parts) {
      if ((part->where == part::Whereabouts::Box) != inside) continue;
      for (const part::TestPoint& point : part->test_points()) {
        const double ratio = apart(*part, point);
        if (ratio <= std::max(1.0, most)) continue;
        most = ratio;
        best = words(*part, point);
      }
    }
    return best;
  }

 private:
  struct Pair {
    double sound_si;
    double faulty_si;
    double most_si;  ///< that the sound one ever comes to, whatever its sign
  };
  [[nodiscard]] std::optional<Pair> values(const std::string& part, const std::string& name) const {
    const int in_sound = sound_.find(part, name);
    const int in_faulty = faulty_.find(part, name);
    if (in_sound < 0 || in_faulty < 0) return std::nullopt;
    const auto sound = static_cast<std::size_t>(in_sound);
    const double most_si =
        std::max(std::abs(sound_.highest[sound].value_si), std::abs(sound_.lowest[sound].value_si));
    return Pair{value_at(sound_, sound, sound_at_s_),
                value_at(faulty_, static_cast<std::size_t>(in_faulty), faulty_at_s_), most_si};
  }

  [[nodiscard]] std::optional<std::string> by_lamp(const part::Part& part) const {
    const std::string& kind = part.description().name;
    const bool is_fan = kind == "fan";
    if (kind != "led" && kind != "level-indicator" && !is_fan) return std::nullopt;
    const auto pair = values(part.name, "current");
    if (!pair) return std::nullopt;
    const double sound_a = pair->sound_si;
    const double faulty_a = pair->faulty_si;
    if (sound_a > seen_a && faulty_a < dark_share * sound_a) {
      return part.name + (is_fan ? " stands still" : " is dark");
    }
    if (faulty_a > seen_a && sound_a < dark_share * faulty_a) {
      return part.name + (is_fan ? " runs" : " is lit");
    }
    return std::nullopt;
  }

  /// How far two readings are apart, in what a meter tells apart: what is left on a dead rail is
  /// no reading, so that the most the point ever shows is what counts.
  [[nodiscard]] double apart(const part::Part& part, const part::TestPoint& point) const {
    const auto pair = values(part.name, run::meter_channel(point));
    if (!pair) return 0.0;
    const double told = std::max(told_apart_v, told_apart_share * pair->most_si);
    return std::abs(pair->faulty_si - pair->sound_si) / told;
  }

  [[nodiscard]] std::string words(const part::Part& part, const part::TestPoint& point) const {
    const auto pair = values(part.name, run::meter_channel(point));
    const auto volts = [](double si) { return quantity::show(quantity::Volt::of_si(si), 3); };
    return fmt::format("{}.{} to {}.{}: {}, {} when sound", part.name, point.plus, part.name,
                       point.minus, volts(pair->faulty_si), volts(pair->sound_si));
  }

  const Build& build_;
  const Record& sound_;
  const Record& faulty_;
  double sound_at_s_;
  double faulty_at_s_;
};

}  // namespace

std::string_view in_words(Effort effort) { return words_of[static_cast<std::size_t>(effort)].name; }
quantity::Second cost_of(Effort effort) {
  return quantity::Second::of_si(60.0 * words_of[static_cast<std::size_t>(effort)].minutes);
}

std::optional<Check> cheapest_check(const Build& build, const SoundRun& sound, const FaultRun& run,
                                    const std::string& looks) {
  constexpr double just_s = 1.0;
  const double sound_s = before_outage.si();
  const double faulty_s = run.loss.si();
  const double trial_s = trial_outage.si() - just_s;
  // Where all is lost within the minute, the run's mains is back by then: what it shows is what
  // was there at the last.
  const double faulty_trial_s = std::min(faulty_s + trial_s, run.outage_ends.si());
  const Comparison settled(build, sound.record, sound_s - just_s, run.record, faulty_s - just_s);
  const Comparison tried(build, sound.record, sound_s + trial_s, run.record, faulty_trial_s);
  const auto check = [](Effort effort, std::optional<std::string> words) -> std::optional<Check> {
    if (!words) return std::nullopt;
    return Check{effort, *std::move(words)};
  };
  if (run.record.samples_si.empty() || sound.record.samples_si.empty()) return std::nullopt;
  if (auto found = check(Effort::Look, settled.by_eye())) return found;
  if (auto found = check(Effort::Meter, settled.by_meter(false))) return found;
  if (auto found = check(Effort::PullPlug, tried.by_eye())) return found;
  if (auto found = check(Effort::PlugMeter, tried.by_meter(false))) return found;
  if (!looks.empty()) return Check{Effort::LookInside, looks};
  if (auto found = check(Effort::OpenBox, settled.by_meter(true))) return found;
  if (auto found = check(Effort::BoxMeter, tried.by_meter(true))) return found;
  const bool ends_early = std::ranges::any_of(run.loads, &LoadEffect::is_lost_early);
  if (ends_early) return Check{Effort::RunDown, "a device is lost early"};
  return std::nullopt;
}

}  // namespace tideover::question
