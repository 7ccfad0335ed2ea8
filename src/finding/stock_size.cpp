#include "finding/stock_size.hpp"

#include <array>
#include <span>

#include <fmt/format.h>

namespace tideover::finding {

using quantity::Ampere;
using quantity::SquareMetre;

namespace {

// IEC 60127: ratings of the R10 series (from memory).
constexpr std::array cartridges{0.1,  0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0,
                                1.25, 1.6,   2.0,  2.5, 3.15, 4.0,   5.0, 6.3, 8.0,  10.0};
// ISO 8820-3 (from memory).
constexpr std::array blades{1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0};
constexpr std::array large_blades{20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0};

std::span<const double> ratings_of(part::FuseStyle style) {
  switch (style) {
    case part::FuseStyle::Blade: return blades;
    case part::FuseStyle::LargeBlade: return large_blades;
    case part::FuseStyle::Quick:
    case part::FuseStyle::TimeLag:
    case part::FuseStyle::TimeLagHighBreaking:
    case part::FuseStyle::Ul:
    case part::FuseStyle::UlTimeDelay:
    case part::FuseStyle::Own: break;
  }
  return cartridges;
}

/// A standard of its own has no sheet to ask.
bool is_made(part::FuseStyle style, double rated_a) {
  return style == part::FuseStyle::Own ||
         part::find_gates(style, Ampere::of_si(rated_a)) != nullptr;
}

template <class Suits>
std::optional<SquareMetre> smallest(const part::Wire& wire, const Suits& suits) {
  part::Wire other = wire;
  for (const part::NominalSize& size : part::nominal_sizes()) {
    other.size = quantity::Value<SquareMetre>(SquareMetre::of_si(size.area_mm2 * 1e-6));
    if (suits(other)) return other.size.nominal();
  }
  return std::nullopt;
}

}  // namespace

std::optional<Ampere> fuse_up_to(part::FuseStyle style, Ampere most) {
  std::optional<Ampere> found;
  for (const double rated_a : ratings_of(style)) {
    if (rated_a <= most.si() && is_made(style, rated_a)) found = Ampere::of_si(rated_a);
  }
  return found;
}

std::optional<Ampere> fuse_from(part::FuseStyle style, Ampere least) {
  for (const double rated_a : ratings_of(style)) {
    if (rated_a >= least.si() && is_made(style, rated_a)) return Ampere::of_si(rated_a);
  }
  return std::nullopt;
}

std::optional<SquareMetre> size_for(const part::Wire& wire, Ampere least,
                                    quantity::Temperature air) {
  return smallest(wire, [&](const part::Wire& one) { return one.ampacity(air).current >= least; });
}

std::optional<SquareMetre> size_that_stands(const part::Wire& wire,
                                            quantity::AmpereSquaredSecond integral) {
  return smallest(wire, [&](const part::Wire& one) { return one.withstand() >= integral; });
}

std::string size_text(SquareMetre size) { return fmt::format("{:.4g} mm2", size.si() * 1e6); }

}  // namespace tideover::finding
