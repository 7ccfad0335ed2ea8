#include "support/random_build.hpp"

#include <random>
#include <stdexcept>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace tideover::test {

namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    // The engine's own bits: distributions differ between standard libraries.
    return low + (high - low) * static_cast<double>(engine_() >> 11U) * 0x1.0p-53;
  }
  int whole(int low, int high) {
    return low + static_cast<int>(between(0.0, high - low + 0.999999));
  }
  bool chance(double share) { return between(0.0, 1.0) < share; }

 private:
  std::mt19937_64 engine_;
};

/// Highest and lowest pack voltage decide how the converter must work.
std::string topology(const RandomBuild& b) {
  const double high = b.series * b.charge_v_per_cell;
  const double low = b.series * (b.is_lfp ? 2.6 : 2.9);
  if (high < b.rail_v - 1.0) return "step-up";
  if (low > b.rail_v + 1.5) return "step-down";
  return "step-up-down";
}

struct Way {
  std::string from;
  std::string to;
  double mm;
};

void add_pack_ways(const RandomBuild& b, std::vector<Way>& ways) {
  if (!b.is_lead_acid) {
    ways.push_back({"pack.minus", "board.b_minus", 60.0});
    ways.push_back({"pack.plus", "board.b_plus", 80.0});
    for (int k = 1; k < b.series; ++k) {
      ways.push_back({fmt::format("pack.tap{}", k), fmt::format("board.tap{}", k), 90.0});
    }
  } else {
    ways.push_back({"pack.minus", "boost.in_minus", 60.0});
  }
  ways.push_back({"pack.plus", "fuse.a", 70.0});
  ways.push_back({"fuse.b", "boost.in_plus", 120.0});
  ways.push_back({"charger.out_plus", "fuse.b", 140.0});
  ways.push_back({"mains.plus", "charger.in_plus", 200.0});
}

std::vector<Way> ways_of(const RandomBuild& b) {
  std::vector<Way> ways;
  add_pack_ways(b, ways);
  if (b.has_relay) {
    ways.push_back({"mains.plus", "relay.work", 150.0});
    ways.push_back({"mains.plus", "relay.coil_plus", 150.0});
    ways.push_back({"boost.out_plus", "relay.rest", 150.0});
    ways.push_back({"relay.common", "gauge.plus", b.supply_lead_mm});
  } else {
    ways.push_back({"mains.plus", "d1.anode", 150.0});
    ways.push_back({"boost.out_plus", "d2.anode", 150.0});
    ways.push_back({"d1.cathode", "gauge.plus", b.supply_lead_mm});
    ways.push_back({"d2.cathode", "gauge.plus", b.supply_lead_mm});
  }
  if (b.is_earthed) ways.push_back({"gauge.signal", "mains.earth", 900.0});
  const auto count = static_cast<int>(ways.size());
  const auto [one, other] = b.swapped;
  if (one > 0 && one <= count && other > 0 && other <= count) {
    std::swap(ways[static_cast<std::size_t>(one - 1)].to,
              ways[static_cast<std::size_t>(other - 1)].to);
  }
  return ways;
}

std::string leads(const RandomBuild& b) {
  std::string text = "[leads]\n";
  int count = 0;
  for (const Way& way : ways_of(b)) {
    text += fmt::format(
        "w{} = {{ between = [\"{}\", \"{}\"], size = \"{:.3f} mm2\", length = \"{:.1f} mm\" }}\n",
        ++count, way.from, way.to, b.lead_mm2, way.mm);
  }
  return text;
}

std::string load(const RandomBuild& b) {
  std::string text = fmt::format(
      "[parts.gauge]\nkind = \"load\"\naccepts = \"{:.3f} V to {:.3f} V\"\nrides = \"5 ms\"\n"
      "boot = \"10 s\"\ninput_capacitance = \"{:.0f} uF\"\n",
      0.75 * b.rail_v, 1.25 * b.rail_v, 1e6 * b.input_capacitance_f);
  if (b.has_bursts) {
    return text + fmt::format(
                      "profile = [{{ draws = \"{0:.4f} W\", lasts = \"9 min\" }}, "
                      "{{ draws = \"{1:.4f} W\", lasts = \"1 min\" }}]\n",
                      0.9 * b.draw_w, 1.9 * b.draw_w);
  }
  switch (b.draw) {
    case RandomBuild::Draw::Power: return text + fmt::format("draws = \"{:.4f} W\"\n", b.draw_w);
    case RandomBuild::Draw::Current:
      return text + fmt::format("draws_current = \"{:.5f} A\"\n", b.draw_w / b.rail_v);
    case RandomBuild::Draw::Resistance:
      return text +
             fmt::format("draws_resistance = \"{:.4f} Ohm\"\n", b.rail_v * b.rail_v / b.draw_w);
  }
  return text;
}

std::string changeover(const RandomBuild& b) {
  if (b.has_ideal_diodes) {
    return "[parts.d1]\nkind = \"ideal-diode\"\n[parts.d2]\nkind = \"ideal-diode\"\n";
  }
  if (!b.has_relay) {
    return "[parts.d1]\nkind = \"diode\"\nmaterial = \"schottky\"\n"
           "[parts.d2]\nkind = \"diode\"\nmaterial = \"schottky\"\n";
  }
  const double coil_ohm = b.rail_v * b.rail_v / 0.36;
  return fmt::format(
      "[parts.relay]\nkind = \"relay\"\ncoil_rated = \"{:.1f} V\"\ncoil_resistance = \"{:.1f} "
      "Ohm\"\n"
      "suppression = \"diode\"\n",
      b.rail_v, coil_ohm);
}

std::string pack_and_board(const RandomBuild& b) {
  const std::string cell = b.is_lead_acid ? "lead-acid-12v-7ah"
                           : b.is_lfp     ? "lfp-18650-1200"
                                          : "nmc-18650-2900";
  std::string text = fmt::format(
      "[parts.pack]\nkind = \"pack\"\ncell = {{ from = \"shelf:{}\"{} }}\nseries = {}\n"
      "parallel = {}\n",
      cell, b.has_self_discharge ? "" : ", self_discharge = \"0 %\"", b.series, b.parallel);
  if (b.is_lead_acid) return text;
  text += fmt::format("[parts.board]\nkind = \"protection-board\"\nseries = {}\n", b.series);
  if (b.is_lfp) {
    text +=
        "over_voltage = \"3.75 V\"\nover_voltage_release = \"3.55 V\"\n"
        "under_voltage = \"2.4 V\"\nunder_voltage_release = \"2.8 V\"\n"
        "balance_start = \"3.5 V\"\n";
  }
  return text;
}

std::string timeline(const RandomBuild& b) {
  std::string text =
      b.repeats > 1 ? fmt::format("[timelines.test]\nrepeats = {}\n", b.repeats) : "";
  text += "[[timelines.test.stretch]]\nmains = \"present\"\nlasts = \"10 min\"\n";
  if (b.pulls_plug) {
    text +=
        "[[timelines.test.stretch]]\nmains = \"unplugged\"\nlasts = \"5 min\"\n"
        "[[timelines.test.stretch]]\nmains = \"present\"\nlasts = \"1 min\"\n"
        "[[timelines.test.stretch]]\nmains = \"absent\"\nlasts = \"2 min\"\n"
        "[[timelines.test.stretch]]\nmains = \"unplugged\"\nlasts = \"2 min\"\n";
  }
  text +=
      "[[timelines.test.stretch]]\nmains = \"absent\"\nuntil = \"pack cut off\"\nlasts = \"3 d\"\n"
      "[[timelines.test.stretch]]\nmains = \"present\"\nlasts = \"30 min\"\n";
  return text;
}

std::string common(const RandomBuild& b) {
  std::string ends = R"("mains.minus", "gauge.minus", "charger.in_minus", "boost.in_minus")";
  if (!b.is_lead_acid) ends += R"(, "board.p_minus")";
  if (b.has_relay) ends += R"(, "relay.coil_minus")";
  return "[joins.common]\nterminals = [" + ends + "]\n";
}

}  // namespace

RandomBuild::RandomBuild(std::uint64_t s) : seed(s) {
  Dice dice(s * 7919 + 17);
  rail_v = dice.chance(0.5) ? 12.0 : 24.0;
  is_lfp = dice.chance(0.3);
  // The charger steps the adapter down, so the full pack stays below the rail.
  const int most = static_cast<int>((rail_v - 2.0) / (is_lfp ? 3.65 : 4.2));
  series = dice.whole(most > 3 ? most - 2 : 2, most);
  parallel = dice.whole(1, 3);
  charge_v_per_cell = is_lfp ? dice.between(3.42, 3.55) : dice.between(4.0, 4.18);
  draw_w = dice.between(0.8, 6.0);
  draw = static_cast<Draw>(dice.whole(0, 2));
  has_bursts = dice.chance(0.25);
  has_relay = dice.chance(0.5);
  has_box = dice.chance(0.5);
  input_capacitance_f = dice.between(100e-6, 2200e-6);
  adapter_a = dice.between(1.2, 2.5) * (draw_w / rail_v) + 0.6;
  charge_a = dice.between(0.15, 0.5);
  overload = dice.chance(0.5) ? "constant-current" : "fold-back";
  lead_mm2 = dice.between(0.25, 1.5);
  supply_lead_mm = dice.between(150.0, 3000.0);
  ambient_c = dice.between(-5.0, 40.0);
}

std::string RandomBuild::sheet() const {
  std::string text = fmt::format(
      "[sheet]\ntitle = \"Random build {}\"\n[needs]\noutlast = \"1 h\"\n"
      "ambient = \"{:.2f} degC to {:.2f} degC\"\n",
      seed, ambient_c, ambient_c);
  text += load(*this);
  text += fmt::format(
      "[parts.mains]\nkind = \"adapter\"\noutput = \"{:.2f} V\"\nrated = \"{:.3f} A\"\n"
      "overload = \"{}\"\n{}",
      rail_v * 1.01, adapter_a, overload, is_earthed ? "earthed = true\n" : "");
  text += pack_and_board(*this);
  text += fmt::format(
      "[parts.charger]\nkind = \"charger\"\ntopology = \"step-down\"\nvoltage = \"{:.3f} V\"\n"
      "current = \"{:.3f} A\"\nhighest_duty = \"99 %\"\n",
      series * charge_v_per_cell, charge_a);
  text += fmt::format(
      "[parts.boost]\nkind = \"converter\"\ntopology = \"{}\"\noutput = \"{:.2f} V\"\n"
      "rated = \"{:.2f} A\"\naccepts = \"{:.2f} V to 32 V\"\n",
      topology(*this), rail_v * 0.98, 4.0 * draw_w / rail_v + 0.5,
      is_lead_acid ? 10.5 : 0.5 * series * charge_v_per_cell);
  text += "[parts.fuse]\nkind = \"fuse\"\nstyle = \"blade\"\nrated = \"10 A\"\n";
  text += changeover(*this);
  if (has_box) text += "[parts.box]\nkind = \"box\"\n";
  text += common(*this);
  text += leads(*this);
  text += timeline(*this);
  return text;
}

build::Build RandomBuild::build() const {
  auto read =
      build::read_sheet(sheet(), fmt::format("random-{}.toml", seed), shelf::built_in_shelf());
  if (!read) throw std::runtime_error(base::show(read.problems()));
  return std::move(read).value();
}

int RandomBuild::lead_count() const { return static_cast<int>(ways_of(*this).size()); }

RandomBuild odd_build(std::uint64_t seed) {
  RandomBuild odd(seed);
  Dice dice(seed * 104729 + 5);
  const int first = dice.whole(0, 4);
  const auto chosen = [&](int choice) { return first == choice || dice.chance(0.25); };
  if (chosen(0)) {
    odd.overload = "hiccup";
    // Often too weak for the device and the charger together.
    odd.adapter_a *= dice.between(0.3, 1.2);
  }
  if (chosen(1)) {
    odd.is_lead_acid = true;
    odd.is_lfp = false;
    odd.rail_v = 24.0;
    odd.series = 1;
    odd.parallel = 1;
    odd.charge_v_per_cell = dice.between(13.5, 14.1);
  }
  odd.pulls_plug = chosen(2);
  if (chosen(3)) {
    odd.has_relay = false;
    odd.has_ideal_diodes = true;
  }
  odd.is_earthed = chosen(4);
  odd.repeats = seed % 2 == 0 ? dice.whole(2, 3) : 1;
  return odd;
}

RandomBuild miswired_build(std::uint64_t seed) {
  RandomBuild build = odd_build(seed);
  Dice dice(seed * 15485863 + 3);
  const int count = build.lead_count();
  const int one = dice.whole(1, count);
  const int step = dice.whole(1, count - 1);
  build.swapped = {one, (one - 1 + step) % count + 1};
  return build;
}

}  // namespace tideover::test
