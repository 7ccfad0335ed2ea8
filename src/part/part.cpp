#include "part/part.hpp"

namespace tideover::part {

using namespace quantity::literals;

std::vector<Field> fields_of_every_part() {
  return Describe<Part>("part", "any part")
      .choice("where", &Part::where, {"box", "outside"}, "which air the part stands in",
              "in the box unless the kind says otherwise")
      .text("note", &Part::note, "the builder's own words")
      .done()
      .fields;
}

std::vector<Field> fields_of_warm_parts(const std::string& default_source) {
  return Describe<Part>("part", "a part that gives off heat")
      .value("body_resistance", &Part::body_resistance, {0.1_K_per_W, 2000.0_K_per_W},
             "temperature rise of its body above the air around it, per watt of loss",
             default_source)
      .value("body_heat", &Part::body_heat, {0.01_J_per_K, 100000.0_J_per_K},
             "heat its body takes up per kelvin", default_source)
      .done()
      .fields;
}

}  // namespace tideover::part
