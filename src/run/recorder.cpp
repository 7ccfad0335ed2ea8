#include "run/recorder.hpp"

#include <algorithm>
#include <cmath>

#include "run/chatter.hpp"

namespace tideover::run {

using network::Fact;
using quantity::Second;

namespace {

/// Self-discharge of 3 % a month moves eight times this share in six hours.
constexpr double idle_share = 3e-5;
constexpr double idle_looks_s = 6.0 * 3600.0;

}  // namespace

Recorder::Recorder(const Circuit& circuit, const build::Build& build, bool keeps_samples,
                   std::span<const double> y)
    : circuit_(circuit),
      keeps_samples_(keeps_samples),
      books_(circuit, y),
      values_(circuit.instruments.channels.size()) {
  for (const part::Channel& channel : circuit.instruments.channels) {
    record_.channels.push_back(
        {channel.part, channel.name, channel.dimension, channel.is_temperature});
  }
  record_.samples_si.resize(values_.size());
  record_.lowest.assign(values_.size(), {HUGE_VAL, {}});
  record_.highest.assign(values_.size(), {-HUGE_VAL, {}});
  for (const auto& part : build.parts) {
    if (part->description().name != "load") continue;
    loads_.push_back({part->name});
    record_.services.push_back({part->name, {}});
  }
  for (const part::Rating& rating : circuit.instruments.ratings) {
    OverloadWatch watch;
    watch.overload = {.part = rating.part,
                      .rating = rating.name,
                      .channel = rating.channel,
                      .limit_si = rating.limit_si,
                      .is_upper = rating.is_upper,
                      .is_polarity = rating.is_polarity,
                      .stands = Second::of_si(rating.stands_s),
                      .source = rating.source};
    overloads_.push_back(std::move(watch));
  }
  sample(0.0, y, keeps_samples_);
  look_at_facts(0.0);
}

void Recorder::sample(double time_s, std::span<const double> y, bool keep) {
  const network::View view = circuit_.network.view(time_s, y);
  for (std::size_t c = 0; c < values_.size(); ++c) {
    const double value = circuit_.instruments.channels[c].value_si(circuit_.network, view);
    values_[c] = value;
    if (value < record_.lowest[c].value_si) record_.lowest[c] = {value, Second::of_si(time_s)};
    if (value > record_.highest[c].value_si) record_.highest[c] = {value, Second::of_si(time_s)};
    if (keep) record_.samples_si[c].push_back(value);
  }
  if (keep) record_.instants.push_back(Second::of_si(time_s));
  look_at_ratings(time_s);
}

void Recorder::look_at_ratings(double time_s) {
  for (OverloadWatch& watch : overloads_) {
    Overload& overload = watch.overload;
    const double value = values_[overload.channel];
    const double beyond = overload.is_upper ? value - overload.limit_si : overload.limit_si - value;
    if (watch.is_over) watch.area += 0.5 * (value + watch.last_si) * (time_s - watch.last_s);
    watch.last_s = time_s;
    watch.last_si = value;
    if (beyond > 0.0) {
      if (!watch.is_over) watch.since_s = time_s;
      if (!watch.happened) overload.first = Second::of_si(time_s);
      const double worst = overload.is_upper ? overload.worst.value_si - overload.limit_si
                                             : overload.limit_si - overload.worst.value_si;
      if (!watch.happened || beyond > worst) overload.worst = {value, Second::of_si(time_s)};
      watch.is_over = watch.happened = true;
    } else if (watch.is_over) {
      end_overload(watch, time_s);
    }
  }
}

void Recorder::end_overload(OverloadWatch& watch, double time_s) {
  const Second lasted = Second::of_si(time_s - watch.since_s);
  watch.overload.total += lasted;
  watch.overload.longest = std::max(watch.overload.longest, lasted);
  watch.is_over = false;
}

void Recorder::stepped(const hybrid::Step& step) {
  ++steps_;
  books_.add(step);
  look_at_energy(step.end_s, step.after());
  sample(step.end_s, step.after(), keeps_samples_);
  if (progress_ != nullptr && to_s_ > from_s_) {
    progress_->report((step.end_s - from_s_) / (to_s_ - from_s_), "running through the timeline");
    stop_asked_ = progress_->stop_asked();
  }
}

void Recorder::reacted(double time_s, std::span<const double> y, const hybrid::Marks& marks) {
  for (const hybrid::Mark& mark : marks) {
    record_.events.push_back({Second::of_si(mark.time_s), mark.who, mark.words,
                              static_cast<network::Effect>(mark.effect)});
  }
  sample(time_s, y, keeps_samples_ && !marks.empty());
  look_at_facts(time_s);
}

void Recorder::look_at_facts(double time_s) {
  look_at_services(time_s);
  const bool is_cut_off = any_is(Fact::CutOff);
  if (is_cut_off && !was_cut_off_) record_.pack_cut_offs.push_back({0.0, Second::of_si(time_s)});
  was_cut_off_ = is_cut_off;
  const bool is_full = any_is(Fact::Full);
  if (is_full && !was_full_) record_.pack_fulls.push_back({0.0, Second::of_si(time_s)});
  was_full_ = is_full;
  has_changed_ = true;
}

void Recorder::look_at_services(double time_s) {
  for (std::size_t k = 0; k < loads_.size(); ++k) {
    bool serves = false;
    bool is_gone = false;
    for (const auto& behaviour : circuit_.network.behaviours()) {
      if (behaviour->part() != loads_[k].name) continue;
      serves = serves || behaviour->is(Fact::Served);
      is_gone = is_gone || behaviour->is(Fact::Gone);
    }
    loads_[k].is_gone = is_gone;
    auto& served = record_.services[k].served;
    const Second now = Second::of_si(time_s);
    if (serves && !loads_[k].serves) served.push_back({now, now});
    if (!serves && loads_[k].serves) served.back().to = now;
    loads_[k].serves = serves;
  }
}

bool Recorder::all_of_loads(Fact fact) const {
  return std::all_of(loads_.begin(), loads_.end(), [fact](const LoadWatch& load) {
    return fact == Fact::Served ? load.serves : load.is_gone;
  });
}

bool Recorder::any_is(Fact fact) const {
  const auto& behaviours = circuit_.network.behaviours();
  return std::any_of(behaviours.begin(), behaviours.end(),
                     [fact](const auto& behaviour) { return behaviour->is(fact); });
}

bool Recorder::waited_for_has_come() const {
  switch (until_) {
    case build::Until::Time: return false;
    case build::Until::FirstLoadLost: return any_is(Fact::Gone);
    case build::Until::AllLoadsLost: return all_of_loads(Fact::Gone);
    case build::Until::LoadsServed: return all_of_loads(Fact::Served);
    case build::Until::PackCutOff: return was_cut_off_;
    case build::Until::PackFull: return was_full_;
  }
  return false;
}

/// No pack becomes full while the stored energy does not rise, nor empty while it does not fall.
void Recorder::look_at_energy(double time_s, std::span<const double> y) {
  if (until_ == build::Until::Time || time_s < looks_at_s_) return;
  const double stored_j = circuit_.network.stored_energy(y);
  most_stored_j_ = std::max(most_stored_j_, stored_j);
  double moved_j = stored_j - looked_at_j_;
  if (until_ == build::Until::LoadsServed) moved_j = std::abs(moved_j);
  if (until_ != build::Until::LoadsServed && until_ != build::Until::PackFull) moved_j = -moved_j;
  waits_in_vain_ = looks_at_s_ > from_s_ && moved_j < idle_share * most_stored_j_;
  looks_at_s_ = time_s + idle_looks_s;
  looked_at_j_ = stored_j;
}

bool Recorder::has_seen_enough() {
  if (stop_asked_ || waits_in_vain_ || is_cut_short()) return true;
  if (!has_changed_) return false;
  has_changed_ = false;
  return waited_for_has_come();
}

void Recorder::wait_for(build::Until until, double from_s, double to_s, base::Progress& progress) {
  until_ = until;
  from_s_ = from_s;
  to_s_ = to_s;
  progress_ = &progress;
  waits_in_vain_ = false;
  steps_ = 0;
  looks_at_s_ = from_s;
  has_changed_ = true;
}

void Recorder::begin_stretch(double time_s, std::string words, bool has_mains) {
  record_.stretches.push_back(
      {Second::of_si(time_s), Second::of_si(time_s), std::move(words), has_mains, true});
}

void Recorder::end_stretch(double time_s, bool as_asked) {
  record_.stretches.back().ends = Second::of_si(time_s);
  record_.stretches.back().ended_as_asked = as_asked;
}

Record Recorder::finish(double time_s, std::span<const double> y, const hybrid::Outcome& outcome,
                        const hybrid::Statistics& statistics) {
  const Second now = Second::of_si(time_s);
  for (std::size_t k = 0; k < loads_.size(); ++k) {
    if (loads_[k].serves) record_.services[k].served.back().to = now;
    record_.services[k].serves_at_end = loads_[k].serves;
  }
  for (OverloadWatch& watch : overloads_) {
    if (!watch.happened) continue;
    if (watch.is_over) end_overload(watch, time_s);
    const double total_s = watch.overload.total.si();
    watch.overload.mean_si = total_s > 0.0 ? watch.area / total_s : watch.overload.worst.value_si;
    record_.overloads.push_back(watch.overload);
  }
  record_.chatters = find_chatter(record_.events, record_.stretches);
  record_.books = books_.close(y);
  record_.outcome = outcome;
  record_.statistics = statistics;
  record_.is_partial = stop_asked_;
  return std::move(record_);
}

}  // namespace tideover::run
