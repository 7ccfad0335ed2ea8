/// A part of some longer work, told as a share of the whole.
#pragma once

#include "base/progress.hpp"

namespace tideover::question {

/// What is reported from 0 to 1 here is reported from `from_share` to `to_share` there. `whole`
/// must outlive it.
class Portion final : public base::Progress {
 public:
  Portion(base::Progress& whole, double from_share, double to_share)
      : whole_(whole), from_(from_share), to_(to_share) {}
  void report(double share, std::string_view doing) override {
    whole_.report(from_ + share * (to_ - from_), doing);
  }
  [[nodiscard]] bool stop_asked() const override { return whole_.stop_asked(); }

 private:
  base::Progress& whole_;
  double from_;
  double to_;
};

}  // namespace tideover::question
