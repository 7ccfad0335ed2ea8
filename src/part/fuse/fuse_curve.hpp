/// A fuse's time to open as a law that also knows what to do with a current that changes.
///
/// One state, the heat h: 0 cold, 1 the element parts.
///     dh/dt = F(m) - c(m) h,      m = current / rated current
/// F and c are chosen so that a constant current opens a cold fuse after t(m):
///     1 - exp(-c t) = c / F,      c = 1 / (element's cooling time), or 1.5/t where that is slower,
/// so short pulses add up as I2t does, a pulse is forgotten within seconds, and an overload that
/// takes minutes counts as one. t(m) runs log-log straight from gate to gate; beyond the last gate,
/// or from the stated melting I2t, I2t is constant. Gates are bands and no time between them is
/// exact: `Earliest` keeps to the lower edges, `Latest` to the upper ones, both two hundredths of
/// the (logarithmic) width inside; `Middle` is the geometric mean.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "numeric/dual.hpp"
#include "numeric/table.hpp"
#include "part/fuse/fuse_gates.hpp"

namespace tideover::part {

enum class FuseLaw { Earliest, Latest, Middle };

/// Melting I2t in units of rated current squared times seconds; all 0: not stated.
struct MeltingIntegral {
  double low = 0.0;
  double nominal = 0.0;
  double high = 0.0;
};

class FuseCurve {
 public:
  /// `gates`: multiples rising, at least one that holds and one that opens.
  FuseCurve(const std::vector<Gate>& gates, double cools_s, FuseLaw law, MeltingIntegral melting);

  /// Time in which the constant current `multiple` times rated opens a cold fuse, in seconds;
  /// nothing if it carries it for good.
  [[nodiscard]] std::optional<double> opening_time_s(double multiple) const;

  /// F and c in 1/s at the squared multiple of rated current.
  template <class Real>
  [[nodiscard]] Real heating(const Real& squared) const {
    return squared * numeric::exponential(log_heating_(place(squared)));
  }
  template <class Real>
  [[nodiscard]] Real cooling(const Real& squared) const {
    return numeric::exponential(log_cooling_(place(squared)));
  }

 private:
  /// Abscissa of both tables: smooth at no current, logarithmic well before anything melts.
  template <class Real>
  [[nodiscard]] static Real place(const Real& squared) {
    return numeric::logarithm(Real(squared + 0.01));
  }

  numeric::Table log_heating_;  ///< ln(F / m^2)
  numeric::Table log_cooling_;  ///< ln c
};

}  // namespace tideover::part
