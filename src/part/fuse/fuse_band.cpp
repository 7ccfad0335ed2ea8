#include "part/fuse/fuse_band.hpp"

namespace tideover::part {

using quantity::Ampere;
using quantity::Second;

namespace {

std::optional<Second> time_on(const FuseCurve& curve, Ampere current, Ampere rated) {
  const auto time_s = curve.opening_time_s((abs(current) / rated).si());
  if (!time_s) return std::nullopt;
  return Second::of_si(*time_s);
}

}  // namespace

FuseBand::FuseBand(const Fuse& fuse)
    : rated_(fuse.rated_at(quantity::Temperature::of_celsius(23.0))),
      early_(fuse.curve(FuseLaw::Earliest)),
      late_(fuse.curve(FuseLaw::Latest)) {
  for (const Gate& gate : fuse.gates_in_force()) corners_.push_back(gate.multiple * rated_);
}

std::optional<Second> FuseBand::earliest(Ampere current) const {
  return time_on(early_, current, rated_);
}

std::optional<Second> FuseBand::latest(Ampere current) const {
  return time_on(late_, current, rated_);
}

}  // namespace tideover::part
