// Energy and derivatives of the laws of a pack and its board, over random arguments.
#include <array>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/pack/cell_group.hpp"
#include "part/pack/rate_wells.hpp"
#include "part/protection_board/board_path.hpp"
#include "support/first_law.hpp"
#include "support/shelf_cell.hpp"

using namespace tideover;
using namespace tideover::tests;

namespace {

double between(double low, double high) {
  return low + (high - low) * static_cast<double>(*rc::gen::inRange(0, 1'000'001)) * 1e-6;
}

template <int Pairs, bool Wells>
part::CellGroup<Pairs, Wells> random_group(const part::Cell& cell) {
  part::CellGroup<Pairs, Wells> law;
  law.curves = std::make_shared<const part::CellCurves>(part::curves_of(cell));
  law.capacity_c = between(1000.0, 50000.0);
  law.r_ohm = between(0.005, 0.1);
  law.link_ohm = between(0.0, 0.01);
  law.arrhenius_k = between(0.0, 4000.0);
  for (auto& pair : law.pairs) pair = {between(0.001, 0.05), between(1.0, 500.0)};
  law.gap_v = between(0.0, 0.1);
  law.turn_share = between(0.01, 0.2);
  law.side_share = between(0.0, 0.2);
  law.leak_per_s = between(0.0, 1e-7);
  law.leak_per_k = std::log(2.0) / 10.0;
  if (Wells) {
    law.near_share = between(0.3, 0.9);
    law.level_per_s = between(1e-5, 1e-3);
  }
  return law;
}

template <int Pairs, bool Wells>
void check_group(const part::Cell& cell) {
  using Group = part::CellGroup<Pairs, Wells>;
  const auto law = random_group<Pairs, Wells>(cell);
  std::array<double, Group::states + 1> x{};
  x[0] = between(-0.1, 1.25);
  x[1] = between(-1.0, 1.0);
  for (std::size_t k = 0; k < Pairs; ++k) x[2 + k] = between(-0.3, 0.3);
  if (Wells) x[2 + Pairs] = between(-0.2, 0.2);
  const double foot_v = between(-5.0, 50.0);
  const std::array<double, 4> u{foot_v + law.curves->rest_v(x[0]) + between(-1.0, 1.0), foot_v,
                                between(250.0, 340.0), 0.0};
  std::array<double, 4> flow{};
  std::array<double, Group::states + 1> rate{};
  law.equations(u.data(), x.data(), flow.data(), rate.data());
  // The curve's second derivative jumps at its points: the difference of stored energy is then
  // good to step times slope only, 1e-5 * 100 V per unit of charge.
  const double size_w = std::abs(rate[0] * law.capacity_c) + std::abs(flow[0] * u[0]) + 1e-3;
  RC_ASSERT(std::abs(imbalance_w(law, u, x, {false, false, true})) < 1e-3 * size_w);
  // Losses warm the cell and never cool it; an abused cell may have been reversed.
  if (x[0] > 0.0) RC_ASSERT(flow[2] <= 1e-9);
}

/// Away from the points of the curves, where the slope has a kink.
template <int Pairs, bool Wells>
void check_slopes(const part::Cell& cell) {
  using Group = part::CellGroup<Pairs, Wells>;
  const auto law = random_group<Pairs, Wells>(cell);
  std::array<double, Group::states + 1> x{};
  x[0] = between(0.05, 0.95);
  x[1] = between(-1.0, 1.0);
  for (std::size_t k = 0; k < Pairs; ++k) x[2 + k] = between(-0.3, 0.3);
  if (Wells) x[2 + Pairs] = between(-0.02, 0.02);
  // A current of either sign, well away from the rounding of its size at zero.
  const double over_v = between(0.05, 0.5) * (*rc::gen::arbitrary<bool>() ? 1.0 : -1.0);
  const std::array<double, 4> u{law.curves->rest_v(x[0]) + over_v, 0.0, between(260.0, 330.0), 0.0};
  // Central differences of third-order curves across a point: relative 1e-3 of the largest.
  RC_ASSERT(derivative_error(law, u, x, 1e-7, 1e-2) < 2e-3);
}

}  // namespace

TEST_CASE("a cell group keeps the first law whatever its state") {
  const part::Cell lithium = shelf_cell("nmc-21700-4000");
  const part::Cell iron = shelf_cell("lfp-26650-2500");
  const part::Cell lead = shelf_cell("lead-acid-12v-7ah");
  CHECK(rc::check("nickel-rich, one pair", [&] { check_group<1, false>(lithium); }));
  CHECK(rc::check("nickel-rich, two pairs", [&] { check_group<2, false>(lithium); }));
  CHECK(rc::check("iron phosphate, two pairs", [&] { check_group<2, false>(iron); }));
  CHECK(rc::check("lead-acid with wells, one pair", [&] { check_group<1, true>(lead); }));
  CHECK(rc::check("lead-acid with wells, two pairs", [&] { check_group<2, true>(lead); }));
}

TEST_CASE("the derivatives of a cell group are those of its values") {
  const part::Cell lithium = shelf_cell("nmc-21700-4000");
  const part::Cell lead = shelf_cell("lead-acid-12v-7ah");
  CHECK(rc::check("one pair", [&] { check_slopes<1, false>(lithium); }));
  CHECK(rc::check("two pairs", [&] { check_slopes<2, false>(lithium); }));
  CHECK(rc::check("wells", [&] { check_slopes<1, true>(lead); }));
}

TEST_CASE("a temperature that only an iteration tries leaves a cell group with numbers") {
  const part::Cell lead = shelf_cell("lead-acid-12v-7ah");
  CHECK(rc::check("between the coldest pack and what is below nothing", [&] {
    const auto law = random_group<1, true>(lead);
    const std::array<double, 5> x{0.5, 0.0, 0.1, 0.0, 0.0};
    const std::array<double, 4> u{13.0, 0.0, between(-5.0, 5.0), 0.0};
    std::array<double, 4> flow{};
    std::array<double, 5> rate{};
    law.equations(u.data(), x.data(), flow.data(), rate.data());
    for (const double value : flow) RC_ASSERT(std::isfinite(value));
    for (const double value : rate) RC_ASSERT(std::isfinite(value));
  }));
}

TEST_CASE("the wells of a cell level out without making energy") {
  const part::Cell lead = shelf_cell("lead-acid-12v-7ah");
  CHECK(rc::check("at rest, wells apart", [&] {
    auto law = random_group<1, true>(lead);
    law.leak_per_s = 0.0;
    std::array<double, 5> x{between(0.2, 0.9), 0.0, 0.0, between(-0.2, 0.2), 0.0};
    const double near = x[0] + (1.0 - law.near_share) * x[3];
    const std::array<double, 3> u{law.curves->rest_v(near), 0.0, 298.15};
    network::Ledger books;
    law.ledger(u.data(), x.data(), books);
    RC_ASSERT(books.lost_w >= -1e-12);
    std::array<double, 3> flow{};
    std::array<double, 5> rate{};
    law.equations(u.data(), x.data(), flow.data(), rate.data());
    RC_ASSERT(std::abs(rate[0]) < 1e-9);
    RC_ASSERT(rate[3] * x[3] <= 0.0);
  }));
}

TEST_CASE("a board's path keeps the first law in all four modes, and its derivatives are right") {
  CHECK(rc::check("path", [] {
    part::BoardPath law{.on_ohm = between(0.001, 0.1),
                        .saturation_a = part::BoardPath::saturation_for(between(0.5, 1.0)),
                        .sense_s = 1e-5};
    law.discharge_blocks = *rc::gen::inRange(0U, 2U);
    law.charge_blocks = *rc::gen::inRange(0U, 2U);
    const std::array<double, 4> u{between(-2.0, 2.0), 0.0, 300.0, 0.0};
    RC_ASSERT(std::abs(imbalance_w(law, u, {0.0}, {false, false, true})) < 1e-9);
    RC_ASSERT(derivative_error(law, u, {0.0}, 1e-7, 1e-6) < 1e-4);
    std::array<double, 4> flow{};
    law.equations(u.data(), u.data(), flow.data(), flow.data());
    RC_ASSERT(flow[2] <= 0.0);
  }));
  CHECK(rc::check("own drain", [] {
    const part::BoardDrain law{between(0.0, 0.01)};
    const std::array<double, 3> u{between(-5.0, 60.0), 0.0, 0.0};
    RC_ASSERT(std::abs(imbalance_w(law, u, {0.0}, {false, false, false})) < 1e-12);
    RC_ASSERT(derivative_error(law, u, {0.0}, 1e-6, 1e-6) < 1e-5);
  }));
}

TEST_CASE("own drain: Newton's iteration finds the potential of a point that nothing else holds") {
  const part::BoardDrain law{20e-6};
  constexpr double leak_s = 1e-9;  // what an open switch leaves between the point and 24 V
  for (double v : {-1e4, -30.0, 0.0, 0.9, 1.1, 65.0, 1e4}) {
    CAPTURE(v);
    for (int turn = 0; turn < 6; ++turn) {
      const numeric::Dual<1> across = numeric::Dual<1>::input(v, 0);
      const numeric::Dual<1> in = law.current_a(across) + leak_s * (across - 24.0);
      v -= in.value / in.slope[0];
    }
    CHECK(v == doctest::Approx(24.0 * leak_s / (20e-6 + leak_s)).epsilon(1e-6));
  }
}

TEST_CASE("a body diode drops what was stated at 1 A, and its resistance comes on top") {
  part::BoardPath law{.on_ohm = 0.01, .saturation_a = part::BoardPath::saturation_for(0.75)};
  law.charge_blocks = 1;
  CHECK(law.current_a(0.75 + 0.01) == doctest::Approx(1.0).epsilon(1e-9));
  CHECK(law.current_a(-20.0) == doctest::Approx(0.0).epsilon(1e-6));
  law.charge_blocks = 0;
  law.discharge_blocks = 1;
  CHECK(law.current_a(-0.76) == doctest::Approx(-1.0).epsilon(1e-9));
  CHECK(std::abs(law.current_a(20.0)) < 1e-6);
}
