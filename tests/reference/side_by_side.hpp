/// One network run twice, and what an observer of either run keeps for comparing them.
#pragma once

#include <span>
#include <vector>

#include "hybrid/stepper.hpp"
#include "network/network.hpp"
#include "reference/ida_run.hpp"

namespace tideover::reference {

/// Keeps the marks and integrates every element's powers.
class Account final : public hybrid::Observer {
 public:
  explicit Account(const network::Network& net);
  void stepped(const hybrid::Step& step) override;
  void reacted(double time_s, std::span<const double> y, const hybrid::Marks& marks) override;

  [[nodiscard]] const hybrid::Marks& marks() const { return marks_; }
  /// Energies in joules since the beginning.
  [[nodiscard]] double supplied_j() const { return sum_.supplied_w; }
  [[nodiscard]] double served_j() const { return sum_.served_w; }
  [[nodiscard]] double lost_j() const { return sum_.lost_w; }
  /// All that flowed: what a residual of the books is measured against.
  [[nodiscard]] double turnover_j() const { return turnover_j_; }

 private:
  const network::Network& net_;
  std::vector<network::Ledger> powers_;
  network::Ledger sum_;  ///< in joules
  double turnover_j_ = 0.0;
  hybrid::Marks marks_;
};

struct Ran {
  hybrid::Outcome outcome;
  std::vector<double> y;
  hybrid::Marks marks;
  double supplied_j = 0.0;
  double served_j = 0.0;
  double lost_j = 0.0;
  double stored_change_j = 0.0;
  double turnover_j = 0.0;
  hybrid::Statistics statistics;  ///< of a stepper's run
  IdaStatistics ida_statistics;   ///< of the reference's run

  /// supplied - served - lost - change of stored, as a share of all that flowed.
  [[nodiscard]] double books_open() const {
    return (supplied_j - served_j - lost_j - stored_change_j) / turnover_j;
  }
};

/// `net` is taken by value: each run has its own copy. From 0 to until_s.
[[nodiscard]] Ran run_by_stepper(network::Network net, double until_s,
                                 const hybrid::Settings& settings);
[[nodiscard]] Ran run_by_ida(network::Network net, double until_s, const IdaSettings& settings);

}  // namespace tideover::reference
