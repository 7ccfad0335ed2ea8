// The box: its faces, its walls, its openings, and how warm its air gets in time.
#include "part/box/box.hpp"

#include <array>
#include <cmath>

#include <doctest/doctest.h>

#include "hybrid/stepper.hpp"
#include "part/fan/fan.hpp"
#include "part/installer.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using network::NodeId;
using part::Box;
using quantity::Metre;
using quantity::Temperature;
using tests::stated;

/// Gives off the same heat whatever its temperature.
struct Heater {
  static constexpr int ports = 1;
  static constexpr int states = 0;
  double watts = 5.0;
  template <class Real>
  void equations(const Real*, const Real*, Real* flow, Real*) const {
    flow[0] = Real(-watts);
  }
  void ledger(const double*, const double*, network::Ledger&) const {}
};

/// A box at 25 degC with a heater in it, and a fan if there is one.
class WarmBox {
 public:
  explicit WarmBox(const Box& box, double watts, const part::Fan* fan = nullptr) {
    ambient_ = net_.add_thermal_node("ambient", 1e15, start_.si());
    air_ = net_.add_thermal_node("box air", box.air_heat().si(), start_.si());
    install(box, {});
    net_.add(Heater{watts}, {air_}, "heater");
    if (fan != nullptr) {
      const NodeId rail = net_.add_electrical_node("rail");
      install(*fan, {{"plus", rail}, {"minus", network::reference_node}});
      net_.add(tests::BenchSupply{}, {rail, network::reference_node}, "supply");
    }
    net_.seal();
  }
  /// Rise of the box air above ambient after so long, in kelvin.
  double rise_after(double time_s) {
    hybrid::Stepper stepper(net_, {}, 0.0, net_.start());
    hybrid::Observer nobody;
    REQUIRE(stepper.advance(time_s, nobody).ended == hybrid::Ended::AtTime);
    const auto view = net_.view(stepper.time_s(), stepper.y());
    return view.potential(air_) - view.potential(ambient_);
  }

 private:
  void install(const part::Part& part, const std::map<std::string, NodeId>& nodes) {
    part::Installer installer(net_, part, nodes, air_, ambient_, start_, instruments_);
    part.install(installer);
  }

  Temperature start_ = 25_degC;
  network::Network net_;
  part::Instruments instruments_;
  NodeId ambient_;
  NodeId air_;
};

Box small_box() {
  Box box;
  box.name = "hut";
  return box;
}

constexpr double long_enough_s = 86400.0;

}  // namespace

TEST_CASE(
    "given 8 W in a closed plastic box of 20 x 12 x 15 cm, then its air settles as practice has "
    "it") {
  // Free faces 0.114 m2 at 4.5 to 5.5 W/(m2 K), the span of enclosure charts: 15.6 to 12.8 K.
  const double rise_k = WarmBox(small_box(), 8.0).rise_after(long_enough_s);
  CHECK(rise_k > 12.8);
  CHECK(rise_k < 15.6);
}

TEST_CASE("a box warms with its walls: in minutes, not in seconds") {
  WarmBox box(small_box(), 8.0);
  const double settled_k = box.rise_after(long_enough_s);
  CHECK(box.rise_after(10.0) < 0.5 * settled_k);
  CHECK(box.rise_after(4.0 * 3600.0) > 0.98 * settled_k);
}

TEST_CASE("openings cool a little, a bare metal box is warmer, a fan settles the matter") {
  const double closed_k = WarmBox(small_box(), 8.0).rise_after(long_enough_s);
  Box open = small_box();
  open.vent_low = stated(20_cm2);
  open.vent_high = stated(20_cm2);
  open.vent_apart = stated(80_mm);
  const double open_k = WarmBox(open, 8.0).rise_after(long_enough_s);
  CHECK(open_k < closed_k);
  CHECK(open_k > 0.6 * closed_k);
  Box bare = small_box();
  bare.material = part::BoxMaterial::BareMetal;
  CHECK(WarmBox(bare, 8.0).rise_after(long_enough_s) > 1.3 * closed_k);
  part::Fan fan;
  fan.name = "fan";
  fan.rated_voltage = stated(12_V);
  fan.rated_current = stated(100_mA);
  CHECK(WarmBox(open, 8.0, &fan).rise_after(long_enough_s) < 0.5 * closed_k);
}

TEST_CASE("a box colder than its room takes heat in as evenly as it gives it off") {
  const auto film = part::film_of(small_box().surface(), 35_degC);
  const auto through = [&](double warm_k, double cool_k) {
    const std::array u{warm_k, cool_k};
    std::array<double, 2> flow{};
    film.equations(u.data(), u.data(), flow.data(), flow.data());
    return flow[0];
  };
  CHECK(through(310.0, 298.0) == doctest::Approx(-through(298.0, 310.0)));
  CHECK(through(298.0, 298.0) == 0.0);
}

TEST_CASE("air properties at one film temperature are good for a box from 10 to 60 degC") {
  const std::array u{320.0, 305.0};
  const auto at = [&](Temperature film) {
    auto surface = small_box().surface();
    surface.emissivity = 0.0;
    std::array<double, 2> flow{};
    part::film_of(surface, film).equations(u.data(), u.data(), flow.data(), flow.data());
    return flow[0];
  };
  CHECK(at(10_degC) / at(35_degC) == doctest::Approx(1.0).epsilon(0.03));
  CHECK(at(60_degC) / at(35_degC) == doctest::Approx(1.0).epsilon(0.03));
}

TEST_CASE("a covered face gives off no heat: the floor on a table, the back on a wall") {
  Box box = small_box();
  CHECK(box.surface().bottom.si() == 0.0);
  box.stands = part::BoxStanding::Free;
  CHECK(box.surface().bottom.si() == doctest::Approx(0.03));
  CHECK(box.surface().sides.si() == doctest::Approx(0.084));
  box.stands = part::BoxStanding::OnWall;
  CHECK(box.surface().sides.si() == doctest::Approx(0.060));
}

TEST_CASE("a box knows the heat of its air and of its walls") {
  CHECK(small_box().air_heat().si() ==
        doctest::Approx(0.195 * 0.115 * 0.145 * 1152.0).epsilon(0.01));
  CHECK(small_box().wall_heat().si() ==
        doctest::Approx(2.0 * (0.024 + 0.030 + 0.018) * 0.0025 * 1050.0 * 1400.0));
}

TEST_CASE("air by Sutherland's formulas at 300, 350 and 400 K, Incropera table A.4, from memory") {
  struct Row {
    double kelvin;
    double viscosity_pa_s;
    double conductivity;
  };
  for (const Row& row : {Row{300.0, 184.6e-7, 26.3e-3}, Row{350.0, 208.2e-7, 30.0e-3},
                         Row{400.0, 230.1e-7, 33.8e-3}}) {
    const auto air = part::air_at(Temperature::of_si(row.kelvin));
    CHECK(air.viscosity_m2_per_s * air.density_kg_per_m3 ==
          doctest::Approx(row.viscosity_pa_s).epsilon(0.01));
    CHECK(std::abs(air.conductivity_w_per_m_k / row.conductivity - 1.0) < 0.01);
  }
}

TEST_CASE("a box that cannot be is told") {
  Box box = small_box();
  CHECK(box.contradictions().empty());
  box.wall = stated(60_mm);
  box.vent_low = stated(20_cm2);
  box.vent_apart = stated(Metre::of_si(0.3));
  CHECK(box.contradictions().size() == 3);
}
