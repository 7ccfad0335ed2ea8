#include "part/wire/conductor.hpp"

#include <array>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::part {

using namespace quantity::literals;
using quantity::OhmMetre;
using quantity::SquareMetre;
using quantity::Temperature;

namespace {

constexpr std::string_view iec_60228 =
    "IEC 60228 tables 1 to 3, as restated by kabelmetal-indonesia.com, etechnik-synergie.com and "
    "uecables.com";
constexpr std::string_view vde_0295 =
    "VDE 0295, as restated by etechnik-synergie.com; sizes below IEC 60228";

constexpr std::array sizes{
    NominalSize{0.14, 0.0, 134.0, 138.0, vde_0295}, NominalSize{0.25, 0.0, 76.0, 79.0, vde_0295},
    NominalSize{0.34, 0.0, 53.0, 56.0, vde_0295},   NominalSize{0.5, 36.0, 39.0, 40.1, iec_60228},
    NominalSize{0.75, 24.5, 26.0, 26.7, iec_60228}, NominalSize{1.0, 18.1, 19.5, 20.0, iec_60228},
    NominalSize{1.5, 12.1, 13.3, 13.7, iec_60228},  NominalSize{2.5, 7.41, 7.98, 8.21, iec_60228},
    NominalSize{4.0, 4.61, 4.95, 5.09, iec_60228},  NominalSize{6.0, 3.08, 3.30, 3.39, iec_60228},
    NominalSize{10.0, 1.83, 1.91, 1.95, iec_60228}, NominalSize{16.0, 1.15, 1.21, 1.24, iec_60228},
};

constexpr double lay_of_strands = 1.02;

double column(const NominalSize& size, Strand strand, bool is_tinned) {
  if (strand != Strand::Flexible) return size.solid_or_stranded;
  return is_tinned ? size.flexible_tinned : size.flexible;
}

}  // namespace

OhmMetre resistivity_at_20_degc(ConductorMaterial material) {
  constexpr double copper = 17.241e-9;
  return OhmMetre::of_si(material == ConductorMaterial::Copper ? copper : copper / 0.629);
}

double resistance_factor(ConductorMaterial material, Temperature conductor) {
  const double per_kelvin = material == ConductorMaterial::Copper ? 0.00393 : 0.00403;
  return 1.0 + per_kelvin * (conductor - 20_degC).si();
}

double reduction_to_20_degc(Temperature measured_at) {
  return 250.0 / (230.0 + measured_at.celsius());
}

std::span<const NominalSize> nominal_sizes() { return sizes; }

std::optional<OhmPerMetre> tabled_resistance(SquareMetre size, ConductorMaterial material,
                                             Strand strand, bool is_tinned) {
  for (const NominalSize& row : sizes) {
    const double there = row.area_mm2 * 1e-6;
    if (std::abs(size.si() - there) > 1e-3 * there) continue;
    const double ohm_per_km = column(row, strand, is_tinned);
    if (ohm_per_km == 0.0) return std::nullopt;
    // The standard knows copper only; the other material differs by its resistivity.
    const double worse = resistivity_at_20_degc(material).si() /
                         resistivity_at_20_degc(ConductorMaterial::Copper).si();
    return OhmPerMetre::of_si(ohm_per_km * 1e-3 * worse);
  }
  return std::nullopt;
}

OhmPerMetre resistance_per_metre(SquareMetre size, ConductorMaterial material, Strand strand,
                                 bool is_tinned, Temperature conductor) {
  TIDEOVER_EXPECT(size.si() > 0.0, "a wire has an area");
  const double hot = resistance_factor(material, conductor);
  if (const auto tabled = tabled_resistance(size, material, strand, is_tinned))
    return *tabled * hot;
  const double lay = strand == Strand::Solid ? 1.0 : lay_of_strands;
  return resistivity_at_20_degc(material) / size * (lay * hot);
}

SquareMetre copper_area_of(OhmPerMetre at_20_degc) {
  return resistivity_at_20_degc(ConductorMaterial::Copper) / at_20_degc;
}

}  // namespace tideover::part
