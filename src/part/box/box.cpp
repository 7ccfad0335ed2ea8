#include "part/box/box.hpp"

#include <algorithm>
#include <array>

#include "part/air_properties.hpp"
#include "part/box/vent_draught.hpp"
#include "part/installer.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Handbook values (from memory), in the order of BoxMaterial.
struct WallMaterial {
  double emissivity;
  double conductivity_w_per_m_k;
  double density_kg_per_m3;
  double heat_j_per_kg_k;
};
constexpr std::array wall_materials{
    WallMaterial{0.90, 0.20, 1050.0, 1400.0},  // ABS, polycarbonate
    WallMaterial{0.90, 50.0, 7850.0, 460.0},   // steel under paint
    WallMaterial{0.10, 200.0, 2700.0, 900.0},  // aluminium, untreated
};

const WallMaterial& made_of(BoxMaterial material) {
  return wall_materials[static_cast<std::size_t>(material)];
}

/// Properties of air are taken here: half way between a box at 45 degC and a room at 25 degC.
constexpr Temperature film_temperature = 35_degC;

}  // namespace

const Description& Box::describe() {
  static const Description description =
      Describe<Box>("box", "The housing; its air is what its parts stand in.")
          .value("width", &Box::width, {20_mm, 2_m}, "outer width", "a usual size, assumed")
          .value("height", &Box::height, {10_mm, 2_m}, "outer height", "a usual size, assumed")
          .value("depth", &Box::depth, {20_mm, 2_m}, "outer depth", "a usual size, assumed")
          .value("wall", &Box::wall, {0.3_mm, 30_mm}, "thickness of its walls",
                 "typical of plastic boxes, from memory")
          .choice("material", &Box::material, {"plastic", "painted-metal", "bare-metal"},
                  "what its walls are", "the usual choice, assumed")
          .value("emissivity", &Box::emissivity, {0.02_ratio, 1_ratio},
                 "how well its surface radiates: bare metal badly",
                 "0.9 for plastic and paint, 0.1 for bare metal, from memory")
          .choice("stands", &Box::stands, {"free", "on-table", "on-wall"},
                  "which face is covered and gives off no heat", "most boxes stand, assumed")
          .value("vent_low", &Box::vent_low, {0_cm2, 2000_cm2}, "free area of its low openings",
                 "none unless stated")
          .value("vent_high", &Box::vent_high, {0_cm2, 2000_cm2}, "free area of its high openings",
                 "none unless stated")
          .value("vent_apart", &Box::vent_apart, {0_mm, 2_m},
                 "height of the high openings above the low ones", "none unless stated")
          .value("vent_discharge", &Box::vent_discharge, {0.1_ratio, 1_ratio},
                 "discharge coefficient of its openings", "sharp-edged opening, from memory")
          .value("touch_limit", &Box::touch_limit, {40_degC, 100_degC},
                 "temperature of its walls that hands may meet",
                 "held for a minute and more, IEC 62368-1 TS1, from memory")
          .text("note", &Box::note, "the builder's own words")
          .done();
  return description;
}

std::unique_ptr<Part> Box::clone() const { return std::make_unique<Box>(*this); }

std::vector<FailureMode> Box::failure_modes() const {
  std::vector<FailureMode> modes{{"covered",
                                  "something lies over it: its top and half of its sides give off "
                                  "no heat",
                                  {},
                                  altering<Box>([](Box& box) { box.is_covered = true; })}};
  if (vent_low.si() > 0.0) {
    modes.push_back({"vents blocked", "no air passes its openings", {}, altering<Box>([](Box& box) {
                       put(box.vent_low, SquareMetre{});
                       put(box.vent_high, SquareMetre{});
                     })});
  }
  return modes;
}

std::vector<std::string> Box::contradictions() const {
  std::vector<std::string> found;
  const double thinnest = std::min({width.si(), height.si(), depth.si()});
  if (2.0 * wall.si() >= thinnest) {
    found.emplace_back("wall: two walls must leave room between them");
  }
  if ((vent_low.si() > 0.0) != (vent_high.si() > 0.0)) {
    found.emplace_back("vent_low: air needs a way in and a way out; state both openings");
  }
  if (vent_apart.si() > height.si()) {
    found.emplace_back("vent_apart: must not exceed the height of the box");
  }
  return found;
}

JoulePerKelvin Box::air_heat() const {
  const double two_walls = 2.0 * wall.si();
  const double volume_m3 =
      (width.si() - two_walls) * (height.si() - two_walls) * (depth.si() - two_walls);
  return JoulePerKelvin::of_si(volume_m3 * air_heat_per_volume(film_temperature));
}

JoulePerKelvin Box::wall_heat() const {
  const WallMaterial& make = made_of(material);
  const double area_m2 =
      2.0 * (width.si() * height.si() + width.si() * depth.si() + height.si() * depth.si());
  return JoulePerKelvin::of_si(area_m2 * wall.si() * make.density_kg_per_m3 * make.heat_j_per_kg_k);
}

BoxSurface Box::surface() const {
  const Metre w = width.nominal();
  const Metre h = height.nominal();
  const Metre d = depth.nominal();
  const double bare_share = is_covered ? 0.5 : 1.0;
  const SquareMetre back = stands == BoxStanding::OnWall ? w * h : SquareMetre{};
  const SquareMetre floor = stands == BoxStanding::OnTable ? SquareMetre{} : w * d;
  return {.sides = bare_share * (2.0 * (w * h + d * h) - back),
          .top = is_covered ? SquareMetre{} : w * d,
          .bottom = floor,
          .height = h,
          .horizontal_length = w * d / (2.0 * (w + d)),
          .emissivity = emissivity.given ? emissivity.si() : made_of(material).emissivity};
}

void Box::install(Installer& installer) const {
  const auto wall_node = installer.network().add_thermal_node(name + ".wall", wall_heat().si(),
                                                              installer.air_start().si());
  const BoxSurface outside = surface();
  BoxSurface inside = outside;
  inside.wall_m2_k_per_w = wall.si() / made_of(material).conductivity_w_per_m_k;
  installer.add(film_of(inside, film_temperature), {installer.air(), wall_node}, "inner film");
  installer.add(film_of(outside, film_temperature), {wall_node, installer.ambient()}, "outer film");
  if (vent_low.si() > 0.0 && vent_high.si() > 0.0) {
    const SquareMetre open = openings_in_series(vent_low.nominal(), vent_high.nominal());
    installer.add(VentDraught{.area_m2 = vent_discharge.si() * open.si(),
                              .apart_m = vent_apart.si(),
                              .air_heat_j_per_m3_k = air_heat_per_volume(film_temperature)},
                  {installer.air(), installer.ambient()}, "openings");
  }
  installer.watch_temperature("air temperature", installer.air());
  const std::size_t touched = installer.watch_temperature("wall temperature", wall_node);
  installer.rate("wall temperature that hands may meet", touched, touch_limit.si(), true, 60_s,
                 touch_limit.given ? "as stated" : "IEC 62368-1 TS1, from memory");
}

}  // namespace tideover::part
