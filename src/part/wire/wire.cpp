#include "part/wire/wire.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/text.hpp"
#include "part/resistance.hpp"
#include "part/wire/colour.hpp"
#include "part/wire/short_circuit.hpp"
#include "quantity/show.hpp"

namespace tideover::part {

using namespace quantity::literals;
using quantity::Ampere;
using quantity::AmpereSquaredSecond;
using quantity::Ohm;
using quantity::Temperature;

namespace {

/// What is wrong with a table asked for by name, in words.
std::optional<std::string> table_fault(const std::string& name, quantity::SquareMetre size) {
  if (name.empty() || name == circular_mils_rule) return std::nullopt;
  if (const AmpacityTable* const table = find_ampacity_table(name)) {
    if (tabled_ampacity(*table, size)) return std::nullopt;
    return fmt::format("`{}` says nothing of {}; it goes from {} to {} mm2", name,
                       quantity::show(size), table->rows.front().area_mm2,
                       table->rows.back().area_mm2);
  }
  std::vector<std::string> known;
  for (const AmpacityTable& table : ampacity_tables()) known.emplace_back(table.name);
  known.emplace_back(circular_mils_rule);
  return fmt::format("there is no table `{}`; there are {}", name, base::quoted_list(known, "and"));
}

}  // namespace

const Description& Wire::describe() {
  static const Description description =
      Describe<Wire>("wire", "One insulated conductor between two terminals.")
          .value("size", &Wire::size, {0.005_mm2, 120_mm2}, "nominal area, or an American gauge")
          .required()
          .value("length", &Wire::length, {1_mm, 200_m}, "length from terminal to terminal")
          .required()
          .text("colour", &Wire::colour, "colour by the letters of IEC 60757, such as RD or RDBU")
          .flag("protective", &Wire::protective, "whether it is a protective earth conductor",
                "a DC supply of this size rarely has one")
          .choice("material", &Wire::material, {"copper", "copper-clad-aluminium"},
                  "what the conductor is made of", "what good wire is made of")
          .choice("strand", &Wire::strand, {"solid", "stranded", "flexible"},
                  "class 1, 2 or 5 of IEC 60228", "hook-up wire is class 5")
          .flag("tinned", &Wire::tinned, "whether its strands are tinned", "most PVC wire is plain")
          .choice("where", &Wire::where, {"box", "outside"}, "which air it lies in",
                  "in the box unless stated")
          .choice("laid", &Wire::laid, {"bundled", "multicore", "single"},
                  "with others in a bundle, as a core of a cable, or alone in free air",
                  "the most cautious of the three")
          .count("loaded_beside", &Wire::loaded_beside, 1, 200,
                 "loaded conductors in the same bundle, itself included",
                 "as many as the tables are made for")
          .text("ampacity_table", &Wire::ampacity_table,
                "the table to go by, such as `IEC 60204-1 B2`; left out: the first that fits the "
                "size and how it is laid")
          .value("insulation", &Wire::insulation, {50_degC, 260_degC},
                 "temperature its insulation stands for good", "PVC, IEC 60364-5-52, from memory")
          .value("joints", &Wire::joints, {0_Ohm, 10_Ohm}, "resistance of both its ends together",
                 "typical of two good crimps or solder joints, from memory")
          .done();
  return description;
}

std::vector<std::string> Wire::contradictions() const {
  std::vector<std::string> wrong;
  if (const auto fault = table_fault(ampacity_table, size.nominal())) {
    wrong.push_back("ampacity_table: " + *fault);
  }
  if (colour.empty()) return wrong;
  if (const auto fault = colour_fault(colour, protective)) wrong.push_back("colour: " + *fault);
  return wrong;
}

Ohm Wire::resistance(Temperature conductor) const {
  const Ohm run =
      resistance_per_metre(size.nominal(), material, strand, tinned, conductor) * length.nominal();
  return std::max(run + joints.nominal(), Ohm::of_si(least_resistance_ohm));
}

Ampacity Wire::copper_ampacity(Temperature ambient) const {
  if (ampacity_table == circular_mils_rule) {
    return {by_700_circular_mils(size.nominal()), ampacity_table};
  }
  if (const AmpacityTable* const table = find_ampacity_table(ampacity_table)) {
    auto found = ampacity_by(*table, size.nominal(), loaded_beside, ambient, insulation.nominal());
    if (found) return *std::move(found);
  }
  return ampacity_of(size.nominal(), laid, loaded_beside, ambient, insulation.nominal());
}

Ampacity Wire::ampacity(Temperature ambient) const {
  Ampacity found = copper_ampacity(ambient);
  // Equal heat: the square of the current goes with the inverse of the resistivity.
  found.current = found.current * std::sqrt(resistivity_at_20_degc(ConductorMaterial::Copper).si() /
                                            resistivity_at_20_degc(material).si());
  return found;
}

Temperature Wire::temperature_at(Ampere current, Temperature ambient) const {
  // Referred to 20 degC below the limit where the ambient itself leaves no room for a current.
  const Temperature reference =
      std::min(ambient, Temperature::of_si(insulation.nominal().si() - 20.0));
  const double share = current.si() / ampacity(reference).current.si();
  return ambient + (insulation.nominal() - reference) * (share * share);
}

AmpereSquaredSecond Wire::withstand() const {
  const Temperature before = insulation.nominal();
  return adiabatic_withstand(size.nominal(), material, before,
                             std::max(before, short_circuit_limit(before)));
}

}  // namespace tideover::part
