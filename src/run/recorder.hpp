/// Watches a run and writes its record.
#pragma once

#include <limits>
#include <map>
#include <vector>

#include "base/progress.hpp"
#include "hybrid/stepper.hpp"
#include "run/bookkeeper.hpp"
#include "run/circuit.hpp"
#include "run/record.hpp"

namespace tideover::run {

class Recorder final : public hybrid::Observer {
 public:
  /// `circuit` must outlive this object; y: the unknowns at time zero, modes settled.
  Recorder(const Circuit& circuit, const build::Build& build, bool keeps_samples,
           std::span<const double> y);

  void stepped(const hybrid::Step& step) override;
  void reacted(double time_s, std::span<const double> y, const hybrid::Marks& marks) override;
  [[nodiscard]] bool has_seen_enough() override;

  /// What a stretch waits for, and the instants that bound it; Until::Time waits for nothing.
  void wait_for(build::Until until, double from_s, double to_s, base::Progress& progress);
  /// Of each stretch from now on (Settings::most_steps_a_stretch).
  void allow_steps(long most) { most_steps_ = most; }
  void begin_stretch(double time_s, std::string words, bool has_mains);
  void end_stretch(double time_s, bool as_asked);
  [[nodiscard]] bool stop_asked() const { return stop_asked_; }
  /// What the stretch waits for will not come: hours have passed and no charge has moved.
  [[nodiscard]] bool waits_in_vain() const { return waits_in_vain_; }
  /// The stretch took more steps than it is allowed.
  [[nodiscard]] bool is_cut_short() const { return steps_ > most_steps_; }
  /// The user stopped the run before time zero.
  void stopped_before() { stop_asked_ = true; }

  [[nodiscard]] Record finish(double time_s, std::span<const double> y,
                              const hybrid::Outcome& outcome, const hybrid::Statistics& statistics);

 private:
  struct LoadWatch {
    std::string name;
    bool serves = false;
    bool is_gone = false;
  };
  struct OverloadWatch {
    bool is_over = false;
    double since_s = 0.0;
    double last_s = 0.0;   ///< of the sample before
    double last_si = 0.0;  ///< and its value
    double area = 0.0;     ///< value times the time over the limit, SI
    Overload overload;
    bool happened = false;
  };

  void sample(double time_s, std::span<const double> y, bool keep);
  void look_at_ratings(double time_s);
  static void end_overload(OverloadWatch& watch, double time_s);
  void look_at_services(double time_s);
  void look_at_facts(double time_s);
  [[nodiscard]] bool all_of_loads(network::Fact fact) const;
  [[nodiscard]] bool any_is(network::Fact fact) const;
  [[nodiscard]] bool waited_for_has_come() const;
  void look_at_energy(double time_s, std::span<const double> y);

  const Circuit& circuit_;
  bool keeps_samples_;
  Bookkeeper books_;
  Record record_;
  std::vector<double> values_;
  std::vector<LoadWatch> loads_;
  std::vector<OverloadWatch> overloads_;
  build::Until until_ = build::Until::Time;
  bool has_changed_ = true;  ///< a fact may have changed since it was last looked at
  bool was_cut_off_ = false;
  bool was_full_ = false;
  bool stop_asked_ = false;
  bool waits_in_vain_ = false;
  double looks_at_s_ = 0.0;     ///< when the stored energy is looked at next
  double looked_at_j_ = 0.0;    ///< what it was
  double most_stored_j_ = 0.0;  ///< ever
  long steps_ = 0;              ///< of the stretch
  long most_steps_ = std::numeric_limits<long>::max();
  double from_s_ = 0.0;
  double to_s_ = 0.0;
  base::Progress* progress_ = nullptr;
};

}  // namespace tideover::run
