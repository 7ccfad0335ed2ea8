// A small supply in a hut and a run of it, both written by hand: what questions and papers are
// asked about in their tests. Nothing here comes out of the solver.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "run/record.hpp"

namespace tideover::test {

// Two loads (sea: 20 V to 28 V, rides 10 ms; radio: 9 V to 15 V), adapter mains24 of 1.5 A, a pack
// of 5 groups of 2 cells, a charger set to 800 mA. Asked for: 4 h, full again in 14 h, 2 to 34
// degC.
build::Build hut();

// Mains for an hour, none for `dark_s`, mains for ten hours. Both loads are served throughout; the
// pack is full again nine hours after the return.
class HutRun {
 public:
  explicit HutRun(double dark_s = 5.0 * 3600.0);

  // Times count from the loss of mains, or from its return for `away_from_return`.
  HutRun& lost(const std::string& load, double after_s);  // until the mains is back, and 30 s more
  HutRun& interrupted(const std::string& load, double after_s, double lasts_s);
  HutRun& cut_off(double after_s, const std::string& part, const std::string& words);
  HutRun& never_full();
  HutRun& event(double at_s, const std::string& part, const std::string& words,
                network::Effect effect = network::Effect::Other);
  // Every sample of one channel.
  HutRun& always(const std::string& part, const std::string& name, double si);
  HutRun& overload(const run::Overload& overload);

  [[nodiscard]] run::Record record() const;
  static constexpr double before_s = 3600.0;
  [[nodiscard]] double loss_s() const { return before_s; }
  [[nodiscard]] double return_s() const { return before_s + dark_s_; }
  [[nodiscard]] double end_s() const { return return_s() + 10.0 * 3600.0; }

 private:
  void take_away(const std::string& load, double from_s, double to_s);

  double dark_s_;
  run::Record record_;
};

}  // namespace tideover::test
