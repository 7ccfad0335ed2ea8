#include "papers/channel_unit.hpp"

#include <array>

namespace tideover::papers {

using quantity::Dimension;

namespace {

struct Row {
  Dimension dimension;
  ChannelUnit unit;
};

constexpr std::array rows{
    Row{quantity::Volt::dimension, {"V", "V"}},
    Row{quantity::Ampere::dimension, {"A", "A"}},
    Row{quantity::Watt::dimension, {"W", "W"}},
    Row{quantity::Joule::dimension, {"Wh", "Wh", 1.0 / 3600.0}},
    Row{quantity::Coulomb::dimension, {"Ah", "Ah", 1.0 / 3600.0}},
    Row{quantity::Ratio::dimension, {"%", "%", 100.0}},
    Row{quantity::Kelvin::dimension, {"K", "K"}},
    Row{quantity::Second::dimension, {"s", "s"}},
    Row{quantity::Ohm::dimension, {"Ohm", "\u03a9"}},
    Row{quantity::CubicMetrePerSecond::dimension, {"l/s", "l/s", 1000.0}},
    Row{quantity::AmpereSquaredSecond::dimension, {"A2s", "A\u00b2s"}},
};

}  // namespace

ChannelUnit unit_of(const run::ChannelInfo& channel) {
  if (channel.is_temperature) {
    return {"degC", "\u00b0C", 1.0, -quantity::Temperature::zero_celsius_k};
  }
  for (const Row& row : rows) {
    if (row.dimension == channel.dimension) return row.unit;
  }
  return {"SI", "SI units"};
}

}  // namespace tideover::papers
