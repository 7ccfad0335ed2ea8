/// Both edges of a fuse's time-current band at once, for questions asked at many currents.
///
/// Cold and in air of 23 degC, the reference of the gates; with the arc left out, which below 60 V
/// ends within a small share of the melting time.
#pragma once

#include <optional>
#include <vector>

#include "part/fuse/fuse.hpp"

namespace tideover::part {

class FuseBand {
 public:
  /// Precondition: no contradictions.
  explicit FuseBand(const Fuse& fuse);

  /// A fuse of this kind opens no sooner; nothing: it carries the current for good.
  [[nodiscard]] std::optional<quantity::Second> earliest(quantity::Ampere current) const;
  /// And no later; nothing: it need not open.
  [[nodiscard]] std::optional<quantity::Second> latest(quantity::Ampere current) const;
  /// Currents at which its gates stand, rising: between them both edges run nearly straight on
  /// logarithmic axes.
  [[nodiscard]] const std::vector<quantity::Ampere>& corners() const { return corners_; }

 private:
  quantity::Ampere rated_;
  FuseCurve early_;
  FuseCurve late_;
  std::vector<quantity::Ampere> corners_;
};

}  // namespace tideover::part
