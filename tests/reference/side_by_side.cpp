#include "reference/side_by_side.hpp"

#include <cmath>

namespace tideover::reference {

Account::Account(const network::Network& net) : net_(net), powers_(net.element_names().size()) {}

void Account::stepped(const hybrid::Step& step) {
  const auto& weights = step.tableau->weights();
  for (std::size_t i = 0; i < step.stages.size(); ++i) {
    const double dt_s = weights[i] * step.length_s();
    if (dt_s == 0.0) continue;
    for (network::Ledger& power : powers_) power = {};
    net_.ledgers(step.stages[i], powers_);
    for (const network::Ledger& power : powers_) {
      sum_.supplied_w += dt_s * power.supplied_w;
      sum_.served_w += dt_s * power.served_w;
      sum_.lost_w += dt_s * power.lost_w;
      turnover_j_ += std::abs(dt_s) * (std::abs(power.supplied_w) + std::abs(power.served_w) +
                                       std::abs(power.lost_w));
    }
  }
}

void Account::reacted(double, std::span<const double>, const hybrid::Marks& marks) {
  marks_.insert(marks_.end(), marks.begin(), marks.end());
}

namespace {

Ran told(const Account& account, const hybrid::Outcome& outcome, const network::Network& net,
         double stored_before_j, std::span<const double> y) {
  return {.outcome = outcome,
          .y = {y.begin(), y.end()},
          .marks = account.marks(),
          .supplied_j = account.supplied_j(),
          .served_j = account.served_j(),
          .lost_j = account.lost_j(),
          .stored_change_j = net.stored_energy(y) - stored_before_j,
          .turnover_j = account.turnover_j()};
}

}  // namespace

Ran run_by_stepper(network::Network net, double until_s, const hybrid::Settings& settings) {
  hybrid::Stepper stepper(net, settings, 0.0, net.start());
  const double stored_j = net.stored_energy(stepper.y());
  Account account(net);
  const auto outcome = stepper.advance(until_s, account);
  Ran ran = told(account, outcome, net, stored_j, stepper.y());
  ran.statistics = stepper.statistics();
  return ran;
}

Ran run_by_ida(network::Network net, double until_s, const IdaSettings& settings) {
  IdaRun run(net, settings, 0.0, net.start());
  const double stored_j = net.stored_energy(run.y());
  Account account(net);
  const auto outcome = run.advance(until_s, account);
  Ran ran = told(account, outcome, net, stored_j, run.y());
  ran.ida_statistics = run.statistics();
  return ran;
}

}  // namespace tideover::reference
