#include "run/bookkeeper.hpp"

#include <cmath>
#include <map>

namespace tideover::run {

using quantity::Joule;

Bookkeeper::Bookkeeper(const Circuit& circuit, std::span<const double> y)
    : circuit_(circuit),
      stored_before_j_(circuit.network.stored_energy(y)),
      totals_(circuit.element_owner.size()),
      instant_(circuit.element_owner.size()) {}

void Bookkeeper::add(const hybrid::Step& step) {
  const auto& weights = step.tableau->weights();
  for (std::size_t i = 0; i < step.stages.size(); ++i) {
    if (weights[i] == 0.0) continue;
    const double share_s = weights[i] * step.length_s();
    leaked_j_ += share_s * circuit_.network.leaked_w(step.stages[i]);
    instant_.assign(instant_.size(), {});
    circuit_.network.ledgers(step.stages[i], instant_);
    for (std::size_t e = 0; e < totals_.size(); ++e) {
      totals_[e].supplied_w += share_s * instant_[e].supplied_w;
      totals_[e].served_w += share_s * instant_[e].served_w;
      totals_[e].lost_w += share_s * instant_[e].lost_w;
    }
  }
}

Books Bookkeeper::close(std::span<const double> y) const {
  Books books;
  std::map<std::string, std::size_t> place;
  double flows_j = 0.0;
  double residual_j = 0.0;
  for (std::size_t e = 0; e < totals_.size(); ++e) {
    const auto [at, is_new] = place.emplace(circuit_.element_owner[e], books.accounts.size());
    if (is_new) books.accounts.push_back({.name = circuit_.element_owner[e]});
    Account& account = books.accounts[at->second];
    account.supplied += Joule::of_si(totals_[e].supplied_w);
    account.served += Joule::of_si(totals_[e].served_w);
    account.lost += Joule::of_si(totals_[e].lost_w);
    residual_j += totals_[e].supplied_w - totals_[e].served_w - totals_[e].lost_w;
    flows_j += std::abs(totals_[e].supplied_w) + std::abs(totals_[e].served_w) +
               std::abs(totals_[e].lost_w);
  }
  // Insulation is the leads'.
  for (Account& account : books.accounts) {
    if (account.name == leads_account) account.lost += Joule::of_si(leaked_j_);
  }
  residual_j -= leaked_j_;
  flows_j += leaked_j_;
  const double stored_after_j = circuit_.network.stored_energy(y);
  residual_j -= stored_after_j - stored_before_j_;
  books.stored_before = Joule::of_si(stored_before_j_);
  books.stored_after = Joule::of_si(stored_after_j);
  books.residual = Joule::of_si(residual_j);
  books.open_share = flows_j > 0.0 ? std::abs(residual_j) / flows_j : 0.0;
  return books;
}

}  // namespace tideover::run
