/// What is in the shops: the sizes of fuses and wire that advice may name.
#pragma once

#include <optional>
#include <string>

#include "part/fuse/fuse.hpp"
#include "part/wire/wire.hpp"

namespace tideover::finding {

/// The largest rated current of that style that is not above `most`; nothing below the smallest.
[[nodiscard]] std::optional<quantity::Ampere> fuse_up_to(part::FuseStyle style,
                                                         quantity::Ampere most);
/// The smallest one that is not below `least`.
[[nodiscard]] std::optional<quantity::Ampere> fuse_from(part::FuseStyle style,
                                                        quantity::Ampere least);
/// The smallest nominal size in which a wire like this one carries `least` for good in that air.
[[nodiscard]] std::optional<quantity::SquareMetre> size_for(const part::Wire& wire,
                                                            quantity::Ampere least,
                                                            quantity::Temperature air);
/// The smallest one that stands a let-through energy.
[[nodiscard]] std::optional<quantity::SquareMetre> size_that_stands(
    const part::Wire& wire, quantity::AmpereSquaredSecond integral);
/// "0.75 mm2".
[[nodiscard]] std::string size_text(quantity::SquareMetre size);

}  // namespace tideover::finding
