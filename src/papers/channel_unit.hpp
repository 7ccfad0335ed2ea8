/// The unit in which a recorded quantity is printed and plotted.
#pragma once

#include <string_view>
#include <vector>

#include "run/record.hpp"

namespace tideover::papers {

/// printed number = SI value * factor + offset.
struct ChannelUnit {
  std::string_view plain;    ///< "degC": for files that programs read
  std::string_view printed;  ///< "°C"
  double factor = 1.0;
  double offset = 0.0;

  [[nodiscard]] double of_si(double si) const { return si * factor + offset; }
};

/// V, A, W, Wh, Ah, %, °C, ...; SI base units where the trade has none of its own.
[[nodiscard]] ChannelUnit unit_of(const run::ChannelInfo& channel);

}  // namespace tideover::papers
