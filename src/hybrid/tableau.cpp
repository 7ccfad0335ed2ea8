#include "hybrid/tableau.hpp"

#include <cmath>

namespace tideover::hybrid {

namespace {

Tableau make_tr_bdf2() {
  const double root = std::sqrt(2.0);
  const double g = 1.0 - root / 2.0;
  const double w = root / 4.0;
  Tableau t{.name = "TR-BDF2", .stages = 3, .order = 2, .embedded_order = 3, .gamma = g};
  t.a[1] = {g, g};
  t.a[2] = {w, w, g};
  t.embedded = {(1.0 - w) / 3.0, (3.0 * w + 1.0) / 3.0, g / 3.0};
  t.c = {0.0, 2.0 * g, 1.0};
  return t;
}

Tableau make_esdirk_32() {
  const double g = 1767732205903.0 / 4055673282236.0;
  Tableau t{.name = "ESDIRK3(2)4L[2]SA", .stages = 4, .order = 3, .embedded_order = 2, .gamma = g};
  t.a[1] = {g, g};
  t.a[2] = {2746238789719.0 / 10658868560708.0, -640167445237.0 / 6845629431997.0, g};
  t.a[3] = {1471266399579.0 / 7840856788654.0, -4482444167858.0 / 7529755066697.0,
            11266239266428.0 / 11593286722821.0, g};
  t.embedded = {2756255671327.0 / 12835298489170.0, -10771552573575.0 / 22201958757719.0,
                9247589265047.0 / 10645013368117.0, 2193209047091.0 / 5459859503100.0};
  t.c = {0.0, 2.0 * g, 0.6, 1.0};
  return t;
}

Tableau make_esdirk_43() {
  const double g = 0.25;
  Tableau t{.name = "ESDIRK4(3)6L[2]SA", .stages = 6, .order = 4, .embedded_order = 3, .gamma = g};
  t.a[1] = {g, g};
  t.a[2] = {8611.0 / 62500.0, -1743.0 / 31250.0, g};
  t.a[3] = {5012029.0 / 34652500.0, -654441.0 / 2922500.0, 174375.0 / 388108.0, g};
  t.a[4] = {15267082809.0 / 155376265600.0, -71443401.0 / 120774400.0, 730878875.0 / 902184768.0,
            2285395.0 / 8070912.0, g};
  t.a[5] = {82889.0 / 524892.0, 0.0, 15625.0 / 83664.0, 69875.0 / 102672.0, -2260.0 / 8211.0, g};
  t.embedded = {4586570599.0 / 29645900160.0, 0.0,
                178811875.0 / 945068544.0,    814220225.0 / 1159782912.0,
                -3700637.0 / 11593932.0,      61727.0 / 225920.0};
  t.c = {0.0, 0.5, 83.0 / 250.0, 31.0 / 50.0, 17.0 / 20.0, 1.0};
  return t;
}

Tableau make_sdirk_43() {
  const double g = 0.25;
  Tableau t{.name = "SDIRK4",
            .stages = 6,
            .uses_first_slope = false,
            .stage_order = 1,
            .order = 4,
            .embedded_order = 3,
            .gamma = g};
  t.a[1] = {0.0, g};
  t.a[2] = {0.0, 0.5, g};
  t.a[3] = {0.0, 17.0 / 50.0, -1.0 / 25.0, g};
  t.a[4] = {0.0, 371.0 / 1360.0, -137.0 / 2720.0, 15.0 / 544.0, g};
  t.a[5] = {0.0, 25.0 / 24.0, -49.0 / 48.0, 125.0 / 16.0, -85.0 / 12.0, g};
  t.embedded = {0.0, 59.0 / 48.0, -17.0 / 96.0, 225.0 / 32.0, -85.0 / 12.0, 0.0};
  t.c = {0.0, 0.25, 0.75, 0.55, 0.5, 1.0};
  return t;
}

}  // namespace

const Tableau& tr_bdf2() {
  static const Tableau tableau = make_tr_bdf2();
  return tableau;
}
const Tableau& esdirk_32() {
  static const Tableau tableau = make_esdirk_32();
  return tableau;
}
const Tableau& esdirk_43() {
  static const Tableau tableau = make_esdirk_43();
  return tableau;
}

const Tableau& sdirk_43() {
  static const Tableau tableau = make_sdirk_43();
  return tableau;
}

}  // namespace tideover::hybrid
