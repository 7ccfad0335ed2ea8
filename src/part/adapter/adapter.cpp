#include "part/adapter/adapter.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "part/adapter/adapter_control.hpp"
#include "part/installer.hpp"
#include "part/resistance.hpp"
#include "quantity/show.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Overload current over rating where nothing is stated: typical of small adapters, from memory.
constexpr double overload_over_rated = 1.25;
/// Share of the source resistance in the lead: 1.5 m of AWG 20 pair has 0.1 ohm (ASTM B258 copper).
constexpr double lead_share = 0.8;
/// How far the top of a measured curve may lie from the stated output.
constexpr double curve_agrees_within = 0.1;

}  // namespace

const Description& VoltAmperePoint::describe() {
  static const Description description =
      Describe<VoltAmperePoint>("volt-ampere point", "One reading at an adapter's plug under load.")
          .value("volts", &VoltAmperePoint::volts, {0.0_V, 60.0_V}, "voltage at the plug")
          .required()
          .value("amps", &VoltAmperePoint::amps, {0.0_A, 30.0_A}, "current drawn at that voltage")
          .required()
          .done();
  return description;
}

namespace {

void describe_output(Describe<Adapter>& d) {
  d.value("output", &Adapter::output, {1.0_V, 60.0_V}, "its voltage at no load").required();
  d.value("rated", &Adapter::rated, {0.05_A, 30.0_A}, "current it may give for hours").required();
  d.value("source_resistance", &Adapter::source_resistance, {1.0_mOhm, 10.0_Ohm},
          "how far its voltage at the plug falls per ampere",
          "typical of small adapters with 1.5 m of lead, from memory");
  d.value("lead_resistance", &Adapter::lead_resistance, {0.0_Ohm, 10.0_Ohm},
          "how much of that is its own lead and plug",
          "four fifths: 1.5 m of AWG 20 pair has 0.1 ohm by ASTM B258");
  d.value("output_capacitance", &Adapter::output_capacitance, {1.0_uF, 100.0_mF},
          "capacitance at its output", "typical of small adapters, from memory");
  d.value("output_esr", &Adapter::output_esr, {1.0_mOhm, 10.0_Ohm},
          "series resistance of that capacitance", "typical, from memory");
  d.value("back_drain", &Adapter::back_drain, {0.0_A, 1.0_A},
          "current it takes from its rail, at its own voltage, while it has no mains",
          "typical of its bleeder and feedback, from memory");
}

void describe_overload(Describe<Adapter>& d) {
  d.choice("overload", &Adapter::overload, {"constant-current", "fold-back", "hiccup"},
           "what it does when asked for too much", "the plainest of the three, assumed");
  d.value("limit", &Adapter::limit, {0.0_A, 60.0_A}, "current at which it gives way",
          "a quarter above its rating, typical, from memory");
  d.value("folds_back_to", &Adapter::folds_back_to, {2.0_percent, 100.0_percent},
          "share of that current left into a short circuit, if it folds back",
          "typical, from memory");
  d.value("hiccup_below", &Adapter::hiccup_below, {10.0_percent, 95.0_percent},
          "share of its voltage below which it takes a pause, if it hiccups",
          "typical, from memory");
  d.value("hiccup_on", &Adapter::hiccup_on, {1.0_ms, 5.0_s}, "how long it tries before a pause",
          "typical, from memory");
  d.value("hiccup_off", &Adapter::hiccup_off, {10.0_ms, 60.0_s}, "how long a pause lasts",
          "typical, from memory");
  d.records("curve", &Adapter::curve, 0, 20,
            "readings at its plug from no load to overload, in place of the label");
}

void describe_mains_side(Describe<Adapter>& d) {
  d.value("hold_up", &Adapter::hold_up, {0.0_s, 1.0_s},
          "how long its store carries its full rating after the mains has gone",
          "about one mains cycle, 16 to 20 ms at full load: common practice; IEC 61204 leaves it "
          "to the maker");
  d.value("start_delay", &Adapter::start_delay, {0.0_s, 10.0_s},
          "from the mains coming back to its output beginning to rise", "typical, from memory");
  d.value("rise", &Adapter::rise, {0.1_ms, 2.0_s}, "how long its output takes to rise",
          "typical, from memory");
  d.value("refill", &Adapter::refill, {1.0_ms, 10.0_s}, "time constant of refilling its store",
          "typical of an inrush limiter and input capacitor, from memory");
  d.value("efficiency", &Adapter::efficiency, {30.0_percent, 99.0_percent},
          "output over mains power at its rating",
          "required of 30 to 40 W by Regulation (EU) 2019/1782, from memory");
  d.value("idle", &Adapter::idle, {0.0_W, 20.0_W}, "mains power at no load",
          "allowed up to 49 W by Regulation (EU) 2019/1782, from memory");
  d.value("full_up_to", &Adapter::full_up_to, {0.0_degC, 150.0_degC},
          "body temperature up to which it gives its full rating", "typical, from memory");
  d.value("half_at", &Adapter::half_at, {1.0_degC, 200.0_degC},
          "body temperature at which half of the rating is left", "typical, from memory");
  d.flag("earthed", &Adapter::earthed, "its minus is joined to the mains earth",
         "most small adapters are not, common practice");
  d.value("earth_resistance", &Adapter::earth_resistance, {0.1_mOhm, 10.0_MOhm},
          "between its minus and its mains earth, if earthed",
          "typical of a solid bond, from memory");
}

}  // namespace

const Description& Adapter::describe() {
  static const Description description = [] {
    Describe<Adapter> d("adapter",
                        "A mains adapter that feeds a device and lends its spare current.");
    describe_output(d);
    describe_overload(d);
    describe_mains_side(d);
    d.with(fields_of_warm_parts("typical of a closed 30 to 40 W adapter on a shelf, from memory"));
    d.with(fields_of_every_part());
    return d.done();
  }();
  return description;
}

Adapter::Adapter() {
  where = Whereabouts::Outside;
  body_resistance = Value<KelvinPerWatt>{6.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{200.0_J_per_K};
}

std::unique_ptr<Part> Adapter::clone() const { return std::make_unique<Adapter>(*this); }

std::vector<Terminal> Adapter::terminals() const {
  return {{"plus", Role::Plus, true, "plus of the plug of " + name},
          {"minus", Role::Minus, true, "minus of the plug of " + name},
          {"earth", Role::Earth, false, "mains earth at " + name}};
}

std::vector<TestPoint> Adapter::test_points() const {
  return {{"plus", "minus", "voltage at the plug"}};
}

std::vector<std::string> Adapter::contradictions() const {
  std::vector<std::string> wrong;
  if (lead_resistance.si() >= source_resistance.si()) {
    wrong.emplace_back("lead_resistance: is a part of source_resistance and must be less");
  }
  if (limit.si() > 0.0 && limit.si() < rated.si()) {
    wrong.emplace_back("limit: lies below the rated current");
  }
  if (half_at.si() <= full_up_to.si()) {
    wrong.emplace_back("half_at: must lie above full_up_to");
  }
  add_contradictions_of_curve(wrong);
  return wrong;
}

void Adapter::add_contradictions_of_curve(std::vector<std::string>& wrong) const {
  if (curve.size() == 1) wrong.emplace_back("curve: takes two readings or more");
  double highest_v = 0.0;
  for (std::size_t a = 0; a < curve.size(); ++a) {
    highest_v = std::max(highest_v, curve[a].volts.si());
    for (std::size_t b = 0; b < a; ++b) {
      if (curve[a].volts.si() == curve[b].volts.si()) {
        wrong.emplace_back("curve: two readings have the same voltage");
      }
    }
  }
  if (!curve.empty() && std::abs(highest_v / output.si() - 1.0) > curve_agrees_within) {
    wrong.emplace_back("curve: its highest voltage is more than a tenth off the stated output");
  }
}

std::vector<std::string> Adapter::remarks() const {
  if (curve.size() < 2) return {};
  const VoltAmperePoint& least = *std::ranges::min_element(
      curve, {}, [](const VoltAmperePoint& point) { return point.amps.si(); });
  return {
      fmt::format("curve: its {} readings count in place of output, source_resistance and limit; "
                  "{} at {} where output says {}",
                  curve.size(), show(least.volts.nominal()), show(least.amps.nominal()),
                  show(output.nominal()))};
}

Ohm Adapter::own_lead() const {
  if (lead_resistance.si() > 0.0) return lead_resistance.nominal();
  return lead_share * source_resistance.nominal();
}

Ampere Adapter::overload_current() const {
  return limit.si() > 0.0 ? limit.nominal() : overload_over_rated * rated.nominal();
}

numeric::Table Adapter::measured_curve() const {
  if (curve.size() < 2) return {};
  std::vector<std::pair<double, double>> points;
  for (const VoltAmperePoint& point : curve) {
    // Readings are at the plug; the law stands before the adapter's own lead.
    points.emplace_back(point.volts.si() + own_lead().si() * point.amps.si(), point.amps.si());
  }
  std::ranges::sort(points);
  // Below the lowest reading the current is taken as constant.
  const auto [lowest_v, last_a] = points.front();
  points.insert(points.begin(), {lowest_v - 1.0, last_a});
  points.insert(points.begin(), {lowest_v - 2.0, last_a});
  std::vector<double> v;
  std::vector<double> i;
  for (const auto& [volts, amps] : points) {
    if (!v.empty() && volts <= v.back()) continue;
    v.push_back(volts);
    i.push_back(amps);
  }
  return {std::move(v), std::move(i)};
}

AdapterStage Adapter::stage() const {
  AdapterStage stage;
  stage.set_v = output.si();
  stage.source_ohm = std::max(source_resistance.si() - own_lead().si(), 1e-3);
  stage.limit_a = overload_current().si();
  stage.fold_share = overload == Overload::FoldBack ? folds_back_to.si() : 1.0;
  stage.curve = measured_curve();
  stage.derate_from_k = full_up_to.si();
  stage.derate_per_k = 0.5 / (half_at.si() - full_up_to.si());
  const double rated_a = rated.si();
  const double rated_w = output.si() * rated_a;
  const double all_w = rated_w * (1.0 / efficiency.si() - 1.0);
  const double lead_w = own_lead().si() * rated_a * rated_a;
  const double rest_w = std::max(all_w - idle.si() - lead_w, 0.0);
  // What grows with the current is taken half as linear (rectifier), half as square (copper).
  stage.idle_w = idle.si();
  stage.linear_v = 0.5 * rest_w / rated_a;
  stage.square_ohm = 0.5 * rest_w / (rated_a * rated_a);
  stage.full_j = hold_up.si() * (rated_w + idle.si() + rest_w);
  stage.refill_per_s = 1.0 / refill.si();
  stage.rise_s = rise.si();
  stage.capacitor = {.capacitance_f = output_capacitance.si(),
                     .esr_ohm = output_esr.si(),
                     .leak_s = back_drain.si() / output.si()};
  return stage;
}

void Adapter::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  const auto inside = installer.inner_node("output capacitor");
  const auto body = installer.body();
  const AdapterStage law = stage();
  const auto stage_at = installer.add(law, {inside, minus, body},
                                      {{{"stored energy", law.full_j, std::max(law.full_j, 1e-3)},
                                        {"soft start", 1.0, 1.0},
                                        {"output capacitor", output.si(), 1.0}}},
                                      "regulator");
  const auto plug = installer.add(Resistance{1.0 / std::max(own_lead().si(), least_resistance_ohm)},
                                  {inside, plus}, "plug");
  const double bond_s = earthed ? 1.0 / earth_resistance.si() : open_conductance_s;
  installer.add(Resistance{bond_s}, {minus, installer.node("earth")}, "earth bond");

  const auto& net = installer.network();
  const AdapterControl::Places places{inside, minus, net.state(stage_at, 0),
                                      net.state(stage_at, 1)};
  installer.add_behaviour(std::make_unique<AdapterControl>(*this, stage_at, plug, places));
  watch(installer, stage_at, plug, inside);
}

void Adapter::watch(Installer& installer, network::Handle<AdapterStage> stage_at,
                    network::Handle<Resistance> plug, network::NodeId inside) const {
  const auto plus = installer.node("plus");
  const auto body = installer.body();
  installer.watch_voltage("output voltage", plus, installer.node("minus"));
  const auto current = [plug, inside, plus](const network::Network& n, const network::View& view) {
    return n.law(plug).conductance_s * view.between(inside, plus);
  };
  const std::size_t amps = installer.watch("output current", Ampere::dimension, current);
  const std::size_t share =
      installer.watch("share of rating", Ratio::dimension,
                      [current, stage_at, body, rated_a = rated.si()](const network::Network& n,
                                                                      const network::View& view) {
                        const double left = n.law(stage_at).rating_share(view.potential(body));
                        // What flows back into it is no share of what it can give.
                        return std::max(current(n, view), 0.0) / (rated_a * left);
                      });
  installer.watch_state("stored energy", installer.network().state(stage_at), Joule::dimension);
  const std::size_t warmth = installer.watch_temperature("body temperature", body);
  installer.rate("rated current", amps, rated.si(), true, 0.1_s, "its label");
  installer.rate("rating left at its temperature", share, 1.0, true, 0.1_s, "its derating");
  installer.rate("body at full rating", warmth, full_up_to.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part
