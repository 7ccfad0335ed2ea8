#include "support/failing_parts.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "part/adapter/adapter.hpp"
#include "part/box/box.hpp"
#include "part/capacitor/capacitor.hpp"
#include "part/charger/charger.hpp"
#include "part/connector/connector.hpp"
#include "part/converter/converter.hpp"
#include "part/fan/fan.hpp"
#include "part/fuse/fuse.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "part/polarity_guard/polarity_guard.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"
#include "part/resistor/resistor.hpp"
#include "part/surge_clamp/surge_clamp.hpp"
#include "part/switch/switch.hpp"
#include "part/thermal_cut_out/thermal_cut_out.hpp"
#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

namespace tideover::tests {

namespace {

using namespace part;
using namespace quantity;
using namespace quantity::literals;

template <class P, class Fill>
void add(AllParts& all, const std::string& name, const Fill& fill) {
  auto made = std::make_unique<P>();
  made->name = name;
  fill(*made);
  all.push_back(std::move(made));
}

void add_supplies(AllParts& all) {
  for (const double volts : {5.0, 12.5, 19.5, 24.1, 48.0}) {
    add<Adapter>(all, fmt::format("adapter of {} V", volts), [volts](Adapter& it) {
      it.output = stated(Volt::of_si(volts));
      it.rated = stated(1.5_A);
      it.limit = stated(2.0_A);
    });
  }
  add<Adapter>(all, "measured adapter", [](Adapter& it) {
    it.output = stated(12.0_V);
    it.rated = stated(2.0_A);
    for (const auto& [volts, amps] : {std::pair{12.1, 0.0}, {11.9, 1.0}, {6.0, 2.4}}) {
      it.curve.push_back({});
      it.curve.back().volts = stated(Volt::of_si(volts));
      it.curve.back().amps = stated(Ampere::of_si(amps));
    }
  });
  for (const int series : {1, 2, 5}) {
    for (const int parallel : {1, 2}) {
      add<Pack>(all, fmt::format("pack {} by {}", series, parallel), [=](Pack& it) {
        it.cell = shelf_cell("nmc-21700-4000");
        it.series = series;
        it.parallel = parallel;
      });
    }
  }
  add<Pack>(all, "pack with a poor group", [](Pack& it) {
    it.cell = shelf_cell("nmc-21700-4000");
    it.series = 3;
    it.groups.resize(3);
    it.groups[1].capacity = stated(3.0_Ah);
    it.groups[2].charge = stated(5.0_percent);
  });
}

MeasuredPoint reading(Volt in, Ampere in_current, Ampere out_current) {
  MeasuredPoint point;
  point.input = stated(in);
  point.input_current = stated(in_current);
  point.output_current = stated(out_current);
  return point;
}

void add_boards(AllParts& all) {
  for (const auto topology :
       {Topology::StepDown, Topology::StepUp, Topology::StepUpDown, Topology::Linear}) {
    for (const bool isolated : {false, true}) {
      add<Converter>(all, fmt::format("converter {} {}", int(topology), isolated),
                     [=](Converter& it) {
                       it.topology = topology;
                       it.isolated = isolated;
                       it.output = stated(topology == Topology::StepUp ? 12.0_V : 5.0_V);
                       it.accepts = {9.0_V, 24.0_V};
                       if (topology == Topology::StepUp) it.accepts = {3.0_V, 11.5_V};
                       it.rated = stated(2.0_A);
                     });
    }
  }
}

void add_adjusted_boards(AllParts& all) {
  // Nearly without loss: a reading that was taken at a higher output would give more than it takes.
  add<Converter>(all, "measured converter", [](Converter& it) {
    it.output = stated(5.0_V);
    it.rated = stated(2.0_A);
    it.measured = {reading(12.0_V, 0.43_A, 1.0_A)};
  });
  add<Converter>(all, "step-down set near its highest input", [](Converter& it) {
    it.output = stated(27.0_V);
    it.rated = stated(2.0_A);
  });
  add<Charger>(all, "plain charger", [](Charger& it) {
    it.voltage = stated(12.6_V);
    it.current = stated(0.06_A);
  });
  add<Charger>(all, "clever charger", [](Charger& it) {
    it.voltage = stated(12.6_V);
    it.current = stated(1.0_A);
    it.ends_at = stated(0.1_A);
    it.begins_again_below = stated(12.4_V);
    it.gentle_below = stated(9.0_V);
    it.gentle_current = stated(0.2_A);
    it.waits_below = stated(0.0_degC);
    it.measured = {reading(19.0_V, 0.68_A, 1.0_A)};
  });
}

void add_protection_boards(AllParts& all) {
  for (const int series : {1, 2, 5}) {
    add<ProtectionBoard>(all, fmt::format("board of {}", series), [=](ProtectionBoard& it) {
      it.series = series;
      it.balances = series > 1 ? Balances::WhileCharging : Balances::Never;
      it.has_temperature_sensor = series > 2;
      if (series > 2) it.sensor_on = "pack";
    });
  }
}

void add_fuses(AllParts& all) {
  for (const FuseStyle style : {FuseStyle::Quick, FuseStyle::TimeLag,
                                FuseStyle::TimeLagHighBreaking, FuseStyle::Ul, FuseStyle::Blade}) {
    for (const double amps : {1.0, 2.0, 6.3}) {
      add<Fuse>(all, fmt::format("fuse {} of {} A", int(style), amps), [=](Fuse& it) {
        it.style = style;
        it.rated = stated(Ampere::of_si(amps));
        it.resistance = stated(0.05_Ohm);
      });
    }
  }
  add<Fuse>(all, "large blade of 60 A", [](Fuse& it) {
    it.style = FuseStyle::LargeBlade;
    it.rated = stated(60.0_A);
  });
}

void add_contacts(AllParts& all) {
  for (const auto suppression :
       {Suppression::None, Suppression::Diode, Suppression::Resistor, Suppression::Zener}) {
    add<Relay>(all, fmt::format("relay {}", int(suppression)), [=](Relay& it) {
      it.coil_resistance = stated(400.0_Ohm);
      it.suppression = suppression;
      it.poles = 1 + int(suppression) % 2;
      it.series_diodes = int(suppression) / 2;
      it.pick_up = stated(suppression == Suppression::None ? 12.5_V : 8.0_V);
    });
  }
  for (const int pairs : {1, 2, 5}) {
    add<Connector>(all, fmt::format("connector of {}", pairs),
                   [=](Connector& it) { it.pairs = pairs; });
  }
  add<Switch>(all, "switch of two", [](Switch& it) {
    it.poles = 2;
    it.ways = 2;
  });
  for (const bool sits : {false, true}) {
    add<ThermalCutOut>(all, sits ? "cut-out on the pack" : "cut-out in air",
                       [=](ThermalCutOut& it) {
                         if (sits) it.sits_on = "pack";
                         if (sits) it.resets = stated(45.0_degC);
                       });
  }
}

void add_small_parts(AllParts& all) {
  for (const auto make : {CapacitorMake::Electrolytic, CapacitorMake::Film}) {
    add<Capacitor>(all, fmt::format("capacitor {}", int(make)), [=](Capacitor& it) {
      it.make = make;
      it.capacitance = stated(1000.0_uF);
      it.rated = stated(35.0_V);
    });
  }
  add<Capacitor>(all, "capacitor that leaks", [](Capacitor& it) {
    it.capacitance = stated(1000.0_uF);
    it.rated = stated(10.0_V);
    it.esr = stated(5.0_Ohm);
    it.leakage = stated(19.0_mA);
  });
  add<Resistor>(all, "resistor", [](Resistor& it) { it.resistance = stated(470.0_Ohm); });
  for (const auto ways : {ClampWays::One, ClampWays::Both}) {
    add<SurgeClamp>(all, fmt::format("clamp {}", int(ways)), [=](SurgeClamp& it) {
      it.ways = ways;
      it.threshold = stated(28.0_V);
    });
  }
}

void add_guards_and_loads(AllParts& all) {
  for (const auto style : {GuardStyle::SeriesDiode, GuardStyle::Mosfet, GuardStyle::Crowbar}) {
    add<PolarityGuard>(all, fmt::format("guard {}", int(style)),
                       [=](PolarityGuard& it) { it.style = style; });
  }
  add<IdealDiode>(all, "ideal diode", [](IdealDiode&) {});
  add<Fan>(all, "measured fan", [](Fan& it) {
    it.rated_voltage = stated(12.0_V);
    for (const auto& [volts, amps] : {std::pair{12.0, 0.1}, {8.0, 0.06}}) {
      it.measured.push_back({});
      it.measured.back().voltage = stated(Volt::of_si(volts));
      it.measured.back().current = stated(Ampere::of_si(amps));
    }
  });
  add<Load>(all, "load with a profile", [](Load& it) {
    it.accepts = {4.7_V, 5.3_V};
    it.profile.resize(2);
    for (ProfileStretch& stretch : it.profile) {
      stretch.draws = stated(1.0_W);
      stretch.lasts = stated(10.0_s);
    }
  });
  add<Box>(all, "box with vents", [](Box& it) {
    it.vent_low = it.vent_high = stated(SquareMetre::of_si(1e-3));
    it.vent_apart = stated(50.0_mm);
  });
}

void describe(Described& one, std::string& text);

void describe_field(const Field& field, Described& one, std::string& text) {
  text += field.key + " = ";
  if (const auto* amount = std::get_if<AmountField>(&field.what)) {
    const Amount& held = amount->amount(one);
    text += fmt::format("{} {} {}", held.low_si, held.nominal_si, held.high_si);
  } else if (const auto* count = std::get_if<CountField>(&field.what)) {
    text += std::to_string(count->count(one));
  } else if (const auto* choice = std::get_if<ChoiceField>(&field.what)) {
    text += std::to_string(choice->chosen(one));
  } else if (const auto* flag = std::get_if<FlagField>(&field.what)) {
    text += flag->flag(one) ? "true" : "false";
  } else if (const auto* words = std::get_if<TextField>(&field.what)) {
    text += words->text(one);
  } else if (const auto* record = std::get_if<RecordField>(&field.what)) {
    describe(record->record(one), text);
  } else if (const auto* records = std::get_if<RecordsField>(&field.what)) {
    for (Described* each : records->all(one)) describe(*each, text);
  }
  text += '\n';
}

void describe(Described& one, std::string& text) {
  for (const Field& field : one.description().fields) describe_field(field, one, text);
}

std::string faults_of(const Part& one) {
  if (const auto* diode = dynamic_cast<const IdealDiode*>(&one)) {
    return fmt::format("{}", diode->controller_dead);
  }
  if (const auto* handle = dynamic_cast<const Switch*>(&one)) {
    return fmt::format("{}", handle->is_stuck);
  }
  if (const auto* box = dynamic_cast<const Box*>(&one)) return fmt::format("{}", box->is_covered);
  if (const auto* board = dynamic_cast<const ConverterBoard*>(&one)) {
    return fmt::format("{}", board->is_stopped);
  }
  if (const auto* board = dynamic_cast<const ProtectionBoard*>(&one)) {
    return fmt::format("{}{}{}{}{}{}", board->discharge_stuck_off, board->charge_stuck_off,
                       board->discharge_stuck_on, board->charge_stuck_on, board->is_blind,
                       board->tap_off);
  }
  std::string text;
  if (const auto* pack = dynamic_cast<const Pack*>(&one)) {
    for (const GroupState& group : pack->groups) {
      text += fmt::format("{} {} ", group.open_cells, group.leak_factor);
    }
  }
  return text;
}

}  // namespace

AllParts parts_of_every_make() {
  AllParts all;
  add_supplies(all);
  add_boards(all);
  add_adjusted_boards(all);
  add_protection_boards(all);
  add_fuses(all);
  add_contacts(all);
  add_small_parts(all);
  add_guards_and_loads(all);
  return all;
}

std::string state_of(const Part& part) {
  std::string text;
  describe(*part.clone(), text);
  return text + faults_of(part);
}

FailureMode mode_of(const Part& part, const std::string& name) {
  for (FailureMode& mode : part.failure_modes()) {
    if (mode.name == name) return std::move(mode);
  }
  FAIL(part.name << " does not fail by " << name);
  return {};
}

}  // namespace tideover::tests
