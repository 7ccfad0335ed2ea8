#include "part/fuse/fuse.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "part/fuse/fuse_blowing.hpp"
#include "part/fuse/fuse_link.hpp"
#include "part/installer.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// The link opens at heat 1. Its band is tens of percent wide, so an error of 1e-4 of that is
/// enough: every burst of load stirs this state for seconds.
constexpr double heat_scale = 100.0;

/// Spread of a melting I2t that is stated without one: makers' typicals of one class differ by up
/// to a factor of two (two datasheets read), one maker's parts by about this much (assumed).
constexpr double unstated_spread = 0.3;
/// Fuses of one standard drop about this at rated current (typical, from memory).
constexpr Volt cold_drop = Volt::of_si(0.1);

/// What keeps gates from making a curve; empty if nothing. Multiples rising.
std::string fault_of(const std::vector<Gate>& gates) {
  const auto first_open = std::ranges::find_if_not(gates, &Gate::is_holding);
  if (first_open == gates.begin() || gates.end() - first_open < 2 ||
      !std::ranges::is_partitioned(gates, &Gate::is_holding)) {
    return "state one without at_most for the current it holds, and two or more above it that "
           "have one";
  }
  if (std::ranges::any_of(gates, [](const Gate& g) { return g.at_least_s > g.at_most_s; }) ||
      !std::is_sorted(first_open, gates.end(),
                      [](const Gate& a, const Gate& b) { return a.at_most_s > b.at_most_s; })) {
    return "at_least lies below at_most, and times fall as current rises";
  }
  if (std::none_of(first_open, gates.end(), [](const Gate& g) { return g.at_least_s > 0.0; })) {
    return "at least one that opens needs an at_least";
  }
  return {};
}

}  // namespace

std::unique_ptr<Part> Fuse::clone() const { return std::make_unique<Fuse>(*this); }

std::vector<Terminal> Fuse::terminals() const {
  return {{"a", Role::Contact, true, "either end"}, {"b", Role::Contact, true, "the other end"}};
}

std::vector<TestPoint> Fuse::test_points() const {
  return {{"a", "b", "drop over the fuse: next to nothing while it is whole"}};
}

std::vector<Gate> Fuse::gates_in_force() const {
  if (style != FuseStyle::Own) {
    const GateSheet* sheet = find_gates(style, rated.nominal());
    return sheet != nullptr ? sheet->gates : std::vector<Gate>{};
  }
  std::vector<Gate> own;
  for (const FuseGate& gate : gates) {
    own.push_back({gate.multiple.si(), gate.at_least.si(),
                   gate.at_most.si() > 0.0 ? gate.at_most.si() : for_good_s});
  }
  std::ranges::sort(own, {}, &Gate::multiple);
  return own;
}

std::vector<std::string> Fuse::contradictions() const {
  std::vector<std::string> wrong;
  const std::vector<Gate> own = gates_in_force();
  if (style != FuseStyle::Own && !gates.empty()) {
    wrong.emplace_back("gates: count only with style \"own\"");
  }
  if (style != FuseStyle::Own && own.empty()) {
    wrong.push_back(fmt::format(
        "rated: {} A has no gates in style \"{}\"; take a standard rating or state its own gates",
        rated.si(), words_for_fuse_styles()[static_cast<std::size_t>(style)]));
  } else if (std::string fault = fault_of(own); !fault.empty()) {
    wrong.push_back("gates: " + std::move(fault));
  }
  if (wrong.empty() && melting.si() > 0.0) check_melting(own.back(), wrong);
  return wrong;
}

void Fuse::check_melting(const Gate& last, std::vector<std::string>& wrong) const {
  const double current_a = last.multiple * rated.si();
  const double opens_s = melting.si() / (current_a * current_a);
  if (opens_s >= last.at_least_s && opens_s <= last.at_most_s) return;
  wrong.push_back(fmt::format(
      "melting: it would open the fuse at {} times its rated current in {:.3g} s; its gates there "
      "are {:.3g} s to {:.3g} s",
      last.multiple, opens_s, last.at_least_s, last.at_most_s));
}

double Fuse::cooling_time_s() const {
  const GateSheet* sheet = find_gates(style, rated.nominal());
  return sheet != nullptr ? sheet->cools_s : 1.0;
}

MeltingIntegral Fuse::melting_in_rated() const {
  if (melting.si() <= 0.0) return {};
  const double squared = rated.si() * rated.si();
  const bool is_exact = melting.low_si == melting.high_si;
  const double low = is_exact ? melting.si() / (1.0 + unstated_spread) : melting.low_si;
  const double high = is_exact ? melting.si() * (1.0 + unstated_spread) : melting.high_si;
  return {low / squared, melting.si() / squared, high / squared};
}

FuseCurve Fuse::curve(FuseLaw which) const {
  return {gates_in_force(), cooling_time_s(), which, melting_in_rated()};
}

std::optional<Second> Fuse::opening_time(Ampere current, FuseLaw which, Temperature air) const {
  const auto time_s = curve(which).opening_time_s((abs(current) / rated_at(air)).si());
  if (!time_s) return std::nullopt;
  return Second::of_si(*time_s);
}

Ampere Fuse::rated_at(Temperature air) const {
  const FuseLink link{.derating_per_k = derating.si()};
  return link.rated_share(air.si()) * rated.nominal();
}

AmpereSquaredSecond Fuse::melting_integral() const {
  if (melting.si() > 0.0) return melting.nominal();
  const double multiple = gates_in_force().back().multiple;
  const Ampere current = multiple * rated.nominal();
  const auto time = opening_time(current, FuseLaw::Middle);
  return current * current * time.value_or(0.0_s);
}

std::optional<Ampere> Fuse::breaking_capacity_dc() const {
  if (!breaking_dc.given) return std::nullopt;
  return breaking_dc.nominal();
}

Ohm Fuse::cold_resistance() const {
  return resistance.si() > 0.0 ? resistance.nominal() : cold_drop / rated.nominal();
}

void Fuse::install(Installer& installer) const {
  const auto a = installer.node("a");
  const auto b = installer.node("b");
  const auto link = installer.add(FuseLink{.curve = std::make_shared<const FuseCurve>(curve(law)),
                                           .rated_a = rated.si(),
                                           .cold_ohm = cold_resistance().si(),
                                           .warm_share = warm_share.si(),
                                           .derating_per_k = derating.si(),
                                           .is_blown = blown},
                                  {a, b, installer.air()}, {{{"heat", 0.0, heat_scale}}}, "link");
  const auto heat = installer.network().state(link);
  const auto breaks = breaking_capacity_dc();
  installer.add_behaviour(std::make_unique<FuseBlowing>(
      name, link, heat, a, b, breaks ? std::optional(breaks->si()) : std::nullopt, blown));

  const std::size_t current = installer.watch(
      "current", Ampere::dimension, [=](const network::Network& net, const network::View& view) {
        return net.law(link).current_a(view.between(a, b), view.state(heat));
      });
  const std::size_t across = installer.watch_voltage("voltage across", a, b);
  installer.watch_state("heat", heat, Ratio::dimension);
  const double share = continuous_share(style).si();
  installer.rate("continuous current", current, share * rated.si(), true, 10.0_s,
                 share < 1.0 ? "75 % of rated, usual for this standard" : "as rated");
  if (rated_voltage.si() > 0.0) {
    installer.rate("rated voltage", across, rated_voltage.si(), true, 0.0_s, "as stated");
  }
  if (breaks) {
    installer.rate("breaking capacity", current, breaks->si(), true, 0.0_s,
                   "as stated, for direct current");
  }
}

}  // namespace tideover::part
