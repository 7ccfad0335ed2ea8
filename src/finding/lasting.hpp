/// What a channel comes to for a while, rather than for an instant.
#pragma once

#include <string_view>

#include "finding/finding.hpp"
#include "run/record.hpp"

namespace tideover::finding {

/// The highest value (or the lowest, where less is worse) that a channel reaches or passes for
/// `lasts` in all, and when it first does. Nothing without samples.
[[nodiscard]] std::optional<run::Extreme> lasting(
    const run::Record& record, std::size_t channel, Limits worse = Limits::Above,
    quantity::Second lasts = quantity::Second::of_si(1.0));

/// The magnitude that a channel reaches or exceeds for a second in all, to a millionth of its
/// highest: what warms a wire, other than the filling of a capacitor. 0 without samples.
[[nodiscard]] double lasting_size_si(const run::Record& record, std::size_t channel);

}  // namespace tideover::finding
