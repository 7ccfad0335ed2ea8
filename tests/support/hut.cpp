#include "support/hut.hpp"

#include <algorithm>

#include "part/adapter/adapter.hpp"
#include "part/charger/charger.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"

namespace tideover::test {

using namespace quantity;
using namespace quantity::literals;

namespace {

template <class Q>
Value<Q> given(Q exact) {
  Value<Q> value(exact);
  value.given = true;
  value.origin = Origin::Measured;
  value.source = "bench";
  return value;
}

std::unique_ptr<part::Load> load(const std::string& name, Volt low, Volt high) {
  auto made = std::make_unique<part::Load>();
  made->name = name;
  made->accepts = Span<Volt>(low, high);
  made->accepts.given = true;
  made->draws = given(3.1_W);
  made->rides = given(10.0_ms);
  return made;
}

build::Lead lead(const std::string& name, build::TerminalName from, build::TerminalName to) {
  build::Lead made{name, std::move(from), std::move(to), {}};
  made.wire.size = given(0.75_mm2);
  made.wire.length = given(180.0_mm);
  made.wire.colour = "RD";
  return made;
}

run::ChannelInfo channel(const std::string& part, const std::string& name, Dimension dimension,
                         bool is_temperature = false) {
  return {part, name, dimension, is_temperature};
}

}  // namespace

build::Build hut() {
  build::Build build;
  build.title = "Hut <on the quay> & \"pier\"";
  build.file = "hut/sheet.toml";
  build.needs.outlast = given(4.0_h);
  build.needs.recharge = given(14.0_h);
  build.needs.ambient = Span<Temperature>(2.0_degC, 34.0_degC);
  build.parts.push_back(load("sea", 20.0_V, 28.0_V));
  build.parts.push_back(load("radio", 9.0_V, 15.0_V));
  auto adapter = std::make_unique<part::Adapter>();
  adapter->name = "mains24";
  adapter->output = given(24.1_V);
  adapter->rated = given(1.5_A);
  build.parts.push_back(std::move(adapter));
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->series = 5;
  pack->parallel = 2;
  pack->cell.discharge_to = given(2.8_V);
  pack->cell.discharge_current = given(8.0_A);
  build.parts.push_back(std::move(pack));
  auto charger = std::make_unique<part::Charger>();
  charger->name = "charger";
  charger->voltage = given(20.5_V);
  charger->current = given(800.0_mA);
  build.parts.push_back(std::move(charger));
  build.leads.push_back(lead("sea_supply", {"mains24", "plus"}, {"sea", "plus"}));
  build.leads.push_back(lead("sea_return", {"sea", "minus"}, {"mains24", "minus"}));
  build.leads.back().wire.colour = "BK";
  return build;
}

HutRun::HutRun(double dark_s) : dark_s_(dark_s) {
  record_.timeline = "storm";
  const auto s = [](double si) { return Second::of_si(si); };
  record_.stretches = {{s(0.0), s(loss_s()), "mains present", true, true},
                       {s(loss_s()), s(return_s()), "mains absent", false, true},
                       {s(return_s()), s(end_s()), "mains present", true, true}};
  for (const char* name : {"sea", "radio"}) {
    record_.services.push_back({name, {{s(0.0), s(end_s())}}});
  }
  record_.pack_fulls = {{0.0, s(return_s() + 9.0 * 3600.0)}};
  record_.channels = {channel("sea", "input voltage", Volt::dimension),
                      channel("sea", "current", Ampere::dimension),
                      channel("radio", "input voltage", Volt::dimension),
                      channel("radio", "current", Ampere::dimension),
                      channel("mains24", "output voltage", Volt::dimension),
                      channel("mains24", "output current", Ampere::dimension),
                      channel("mains24", "share of rating", Ratio::dimension),
                      channel("pack", "voltage", Volt::dimension),
                      channel("pack", "discharge current", Ampere::dimension),
                      channel("pack", "energy left", Joule::dimension),
                      channel("pack", "cell temperature", Kelvin::dimension, true),
                      channel("leads.sea_supply", "current", Ampere::dimension)};
  const double kelvin = Temperature::zero_celsius_k;
  const std::vector<double> on_mains{24.0, 0.125, 12.0, 0.25, 24.1,          0.75,
                                     0.5,  20.0,  0.01, 5e5,  kelvin + 20.0, 0.125};
  const std::vector<double> in_the_dark{22.0, 0.14, 11.5, 0.26, 0.0,           0.0,
                                        0.0,  18.0, 0.5,  2e5,  kelvin + 24.0, 0.14};
  record_.samples_si.assign(record_.channels.size(), {});
  for (const double at : {0.0, loss_s(), loss_s(), return_s(), return_s(), end_s()}) {
    const bool is_dark = record_.instants.size() == 2 || record_.instants.size() == 3;
    record_.instants.push_back(s(at));
    for (std::size_t c = 0; c < record_.channels.size(); ++c) {
      record_.samples_si[c].push_back(is_dark ? in_the_dark[c] : on_mains[c]);
    }
  }
  record_.books.accounts = {{"mains24", 1000.0_J, 0.0_J, 50.0_J}, {"sea", 0.0_J, 700.0_J, 0.0_J}};
  record_.books.stored_before = 500.0_J;
  record_.books.stored_after = 750.0_J;
  record_.outcome = {hybrid::Ended::AtTime, end_s(), ""};
}

void HutRun::take_away(const std::string& load, double from_s, double to_s) {
  for (run::Service& service : record_.services) {
    if (service.load != load) continue;
    std::vector<run::Service::Interval> left;
    for (const auto& [from, to] : service.served) {
      if (to.si() <= from_s || from.si() >= to_s) {
        left.push_back({from, to});
        continue;
      }
      if (from.si() < from_s) left.push_back({from, Second::of_si(from_s)});
      if (to.si() > to_s) left.push_back({Second::of_si(to_s), to});
    }
    service.served = left;
  }
}

HutRun& HutRun::lost(const std::string& load, double after_s) {
  take_away(load, loss_s() + after_s, return_s() + 30.0);
  return event(loss_s() + after_s, load, "is lost");
}

HutRun& HutRun::interrupted(const std::string& load, double after_s, double lasts_s) {
  take_away(load, loss_s() + after_s, loss_s() + after_s + lasts_s);
  return event(loss_s() + after_s, load, "is lost");
}

HutRun& HutRun::cut_off(double after_s, const std::string& part, const std::string& words) {
  record_.pack_cut_offs.push_back({0.0, Second::of_si(loss_s() + after_s)});
  return event(loss_s() + after_s, part, words);
}

HutRun& HutRun::never_full() {
  record_.pack_fulls.clear();
  record_.stretches.back().ended_as_asked = false;
  return *this;
}

HutRun& HutRun::always(const std::string& part, const std::string& name, double si) {
  int found = record_.find(part, name);
  if (found < 0) {
    found = static_cast<int>(record_.channels.size());
    record_.channels.push_back(channel(part, name, Volt::dimension));
    record_.samples_si.emplace_back(record_.instants.size());
  }
  for (double& sample : record_.samples_si[static_cast<std::size_t>(found)]) sample = si;
  return *this;
}

HutRun& HutRun::event(double at_s, const std::string& part, const std::string& words,
                      network::Effect effect) {
  record_.events.push_back({Second::of_si(at_s), part, words, effect});
  std::ranges::stable_sort(record_.events, {}, [](const run::Event& one) { return one.at.si(); });
  return *this;
}

HutRun& HutRun::overload(const run::Overload& overload) {
  record_.overloads.push_back(overload);
  return *this;
}

run::Record HutRun::record() const {
  run::Record made = record_;
  for (const std::vector<double>& samples : made.samples_si) {
    const auto [low, high] = std::ranges::minmax_element(samples);
    made.lowest.push_back({*low, made.instants[static_cast<std::size_t>(low - samples.begin())]});
    made.highest.push_back(
        {*high, made.instants[static_cast<std::size_t>(high - samples.begin())]});
  }
  return made;
}

}  // namespace tideover::test
