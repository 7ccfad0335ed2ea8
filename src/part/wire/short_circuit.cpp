#include "part/wire/short_circuit.hpp"

#include <cmath>

#include "base/contract.hpp"
#include "part/wire/gauge.hpp"

namespace tideover::part {

using namespace quantity::literals;
using quantity::Ampere;
using quantity::AmpereSquaredSecond;
using quantity::Metre;
using quantity::Second;
using quantity::SquareMetre;
using quantity::Temperature;

double adiabatic_k(ConductorMaterial material, Temperature before, Temperature after) {
  TIDEOVER_EXPECT(after >= before, "a short circuit heats");
  const bool is_copper = material == ConductorMaterial::Copper;
  const double scale = is_copper ? 226.0 : 148.0;
  const double zero_resistance = is_copper ? 234.5 : 228.0;
  const double rise = (after - before).si();
  return scale * std::sqrt(std::log1p(rise / (zero_resistance + before.celsius())));
}

AmpereSquaredSecond adiabatic_withstand(SquareMetre size, ConductorMaterial material,
                                        Temperature before, Temperature after) {
  const double k_s = adiabatic_k(material, before, after) * size.si() * 1e6;
  return AmpereSquaredSecond::of_si(k_s * k_s);
}

Temperature short_circuit_limit(Temperature lasting_limit) {
  return lasting_limit >= 90_degC ? 250_degC : 160_degC;
}

Ampere preece_fusing_current(FusingMetal metal, Metre diameter) {
  double per_inch_and_half = 10244.0;
  if (metal == FusingMetal::Aluminium) per_inch_and_half = 7585.0;
  if (metal == FusingMetal::Iron) per_inch_and_half = 3148.0;
  return Ampere::of_si(per_inch_and_half * std::pow(diameter.si() / 0.0254, 1.5));
}

Ampere onderdonk_fusing_current(SquareMetre size, Second time, Temperature ambient) {
  TIDEOVER_EXPECT(time.si() > 0.0, "melting takes time");
  constexpr double melting_celsius = 1083.0;
  const double start_celsius = ambient.celsius();
  const double diameter_mil = diameter_of(size).si() / 25.4e-6;
  const double decades =
      std::log10(1.0 + (melting_celsius - start_celsius) / (234.0 + start_celsius));
  return Ampere::of_si(diameter_mil * diameter_mil * std::sqrt(decades / (33.0 * time.si())));
}

}  // namespace tideover::part
