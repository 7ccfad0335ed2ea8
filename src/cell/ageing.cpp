#include "cell/ageing.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "base/text.hpp"
#include "numeric/fade_forecast.hpp"
#include "quantity/show.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

constexpr int most_cycles_ahead = 100'000;

base::Problems check(const std::string& cell, const std::vector<int>& cycle,
                     const std::vector<double>& value_si, int until) {
  base::Problems wrong;
  const auto say = [&](const char* text, std::string remedy) {
    wrong.push_back({{}, cell + ": " + text, std::move(remedy)});
  };
  if (cycle.size() != value_si.size() || cycle.size() < numeric::least_fade_points) {
    say("too short a record to foretell anything",
        "at least " + std::to_string(numeric::least_fade_points) + " measured cycles are needed");
    return wrong;
  }
  if (std::ranges::adjacent_find(cycle, std::greater_equal<>()) != cycle.end()) {
    say("the cycles of the record do not rise", "one line a cycle, in order");
  }
  const auto is_good = [](double value) { return value > 0.0 && std::isfinite(value); };
  if (!std::ranges::all_of(value_si, is_good)) {
    say("a value that is not above 0", "leave out cycles that were broken off");
  }
  if (until <= cycle.back() || until - cycle.back() > most_cycles_ahead) {
    say("nothing to foretell", "ask for a cycle behind the record's last, " +
                                   std::to_string(cycle.back()) + ", by at most 100000");
  }
  return wrong;
}

template <class Type>
std::vector<std::string> cycle_sentences(const std::string& cell, const char* what,
                                         const CycleForecast<Type>& made, int known) {
  const ForecastPoint<Type>& last = made.points.back();
  return {cell + " after cycle " + std::to_string(last.cycle) + ": " + what + " between " +
          show(last.low) + " and " + show(last.high) + " in nine of ten cases, middle " +
          show(last.middle) + ". Foretold from " + std::to_string(known) + " measured cycles."};
}

std::vector<std::string> cycle_limits(int tried_until, int asked) {
  std::vector<std::string> limits{
      "Foretold from this cell's own past only: a sudden drop, as old cells show, is not in it.",
      "It holds for the same use, temperature and rests; a rest gives back some capacity for a few "
      "cycles.",
      "The band is made of how wrong the same forecast was earlier in the record; one record holds "
      "few independent trials."};
  if (asked > tried_until) {
    limits.push_back("Behind cycle " + std::to_string(tried_until) +
                     " the record is too short to have tried a forecast so far ahead.");
  }
  return limits;
}

template <class Type>
base::Result<CycleForecast<Type>> forecast(const std::string& cell, const char* what,
                                           const std::vector<int>& cycle,
                                           const std::vector<Type>& values, int until) {
  std::vector<double> value_si;
  value_si.reserve(values.size());
  for (const Type& value : values) value_si.push_back(value.si());
  base::Problems wrong = check(cell, cycle, value_si, until);
  if (!wrong.empty()) return wrong;
  std::vector<double> at;
  at.reserve(static_cast<std::size_t>(until - cycle.back()));
  for (int k = cycle.back() + 1; k <= until; ++k) at.push_back(k);
  const numeric::FadeForecast fade =
      numeric::forecast_fade({cycle.begin(), cycle.end()}, std::move(value_si), at);
  CycleForecast<Type> made;
  made.points.reserve(fade.points.size());
  for (const numeric::FadePoint& point : fade.points) {
    made.points.push_back({static_cast<int>(point.at), Type::of_si(point.low),
                           Type::of_si(point.middle), Type::of_si(point.high)});
  }
  made.tried_until = static_cast<int>(fade.tried_until);
  made.sentences = cycle_sentences(cell, what, made, static_cast<int>(cycle.size()));
  made.limits = cycle_limits(made.tried_until, until);
  return made;
}

constexpr double halving_k = 10.0;

/// Shares of the loss at the end of life that two laws foretell after a share of that life.
struct Loss {
  double least = 0.0;
  double most = 0.0;
};

Loss loss_after(double life_share) {
  const double root = std::sqrt(life_share);
  return {std::min(root, life_share), std::max(root, life_share)};
}

}  // namespace

base::Result<CycleForecast<Coulomb>> forecast_capacity(const CapacityRecord& record, int until) {
  return forecast(record.cell, "capacity", record.cycle, record.capacity, until);
}

base::Result<CycleForecast<Ohm>> forecast_resistance(const ResistanceRecord& record, int until) {
  return forecast(record.cell, "resistance", record.cycle, record.resistance, until);
}

YearsForecast forecast_years(const part::Cell& kind, Temperature stated_at, Temperature kept_at,
                             const std::vector<Second>& years) {
  constexpr double year_s = 365.25 * 86400.0;
  YearsForecast made;
  made.limits = {
      "A life of so many years is a maker's or a builder's word, not a measurement of these cells.",
      "Salvaged cells have used up part of it already.",
      "Kept full and warm they age faster than half charged and cool; deep cycles add to it."};
  if (kind.life.si() <= 0.0) {
    made.sentences = {
        "The class states no life, so that nothing can be foretold: test the "
        "capacity once a year and write it down."};
    return made;
  }
  const double warmer_k = (kept_at - stated_at).si();
  made.life = Second::of_si(kind.life.si() * std::exp2(-warmer_k / halving_k));
  const double lost_capacity = 1.0 - kind.end_of_life_capacity.si();
  const double more_resistance = kind.end_of_life_resistance.si() - 1.0;
  made.points.reserve(years.size());
  for (const Second& after : years) {
    const Loss loss = loss_after(after.si() / made.life.si());
    const auto left = [&](double share) {
      return Ratio::of_si(std::max(0.0, 1.0 - share * lost_capacity));
    };
    made.points.push_back({after, left(loss.most), left(loss.least),
                           Ratio::of_si(1.0 + loss.least * more_resistance),
                           Ratio::of_si(1.0 + loss.most * more_resistance)});
  }
  made.sentences = {"Kept at " + show(kept_at) + " the cells are worn out after about " +
                    base::number_text(made.life.si() / year_s, 2) + " years, with " +
                    base::number_text(100.0 * kind.end_of_life_capacity.si(), 3) +
                    " % of their capacity left."};
  return made;
}

}  // namespace tideover::cell
