#include "support/jetty.hpp"

#include <array>
#include <utility>

#include <doctest/doctest.h>

namespace tideover::test {

namespace {

using Entry = std::pair<const char*, const char*>;

constexpr std::array parts{
    Entry{"needs.outlast", "'4 h'"},
    Entry{"needs.ambient", "'0 degC to 30 degC'"},
    Entry{"horn.kind", "'load'"},
    Entry{"horn.accepts", "'4.5 V to 15 V'"},
    Entry{"horn.draws", "'4 W'"},
    Entry{"lamp.kind", "'load'"},
    Entry{"lamp.accepts", "'9 V to 13 V'"},
    Entry{"lamp.draws", "'2 W'"},
    Entry{"shore.kind", "'adapter'"},
    Entry{"shore.output", "'12 V +/- 2 %'"},
    Entry{"shore.rated", "'2 A'"},
    Entry{"shore.overload", "'hiccup'"},
    Entry{"jack.kind", "'connector'"},
    Entry{"jack.rated", "'5 A'"},
    Entry{"charger.kind", "'charger'"},
    Entry{"charger.topology", "'step-up-down'"},
    Entry{"charger.voltage", "'12.3 V +/- 0.5 %'"},
    Entry{"charger.current", "'1 A +/- 5 %'"},
    Entry{"pack.kind", "'pack'"},
    Entry{"pack.cell", "'shelf:nmc-18650-2900'"},
    Entry{"pack.series", "3"},
    Entry{"pack.parallel", "2"},
    Entry{"board.kind", "'protection-board'"},
    Entry{"board.series", "3"},
    Entry{"board.over_voltage", "'4.25 V +/- 25 mV'"},
    Entry{"board.over_voltage_release", "'4.15 V'"},
    Entry{"board.under_voltage", "'2.8 V +/- 50 mV'"},
    Entry{"board.discharge_over_current", "'20 A'"},
    Entry{"board.short_circuit", "'100 A'"},
    Entry{"board.short_circuit_delay", "'300 us'"},
    Entry{"board.rated", "'8 A'"},
    Entry{"f_pack.kind", "'fuse'"},
    Entry{"f_pack.style", "'blade'"},
    Entry{"f_pack.rated", "'5 A'"},
    Entry{"f_pack.rated_voltage", "'32 V'"},
    Entry{"f_pack.breaking_dc", "'1000 A'"},
    Entry{"main.kind", "'switch'"},
    Entry{"main.rated", "'6 A'"},
    Entry{"bar.kind", "'terminal-block'"},
    Entry{"bar.ways", "6"},
    Entry{"bar.rated", "'10 A'"},
    Entry{"f_lamp.kind", "'fuse'"},
    Entry{"f_lamp.style", "'time-lag'"},
    Entry{"f_lamp.rated", "'1 A'"},
    Entry{"f_lamp.rated_voltage", "'63 V'"},
    Entry{"f_lamp.breaking_dc", "'200 A'"},
    Entry{"smooth.kind", "'capacitor'"},
    Entry{"smooth.capacitance", "'1000 uF'"},
    Entry{"smooth.rated", "'25 V'"},
    Entry{"up12.kind", "'converter'"},
    Entry{"up12.topology", "'step-up'"},
    Entry{"up12.output", "'12.6 V +/- 1 %'"},
    Entry{"up12.rated", "'1.5 A'"},
    Entry{"up12.accepts", "'7 V to 13 V'"},
    Entry{"swap.kind", "'relay'"},
    Entry{"swap.coil_rated", "'12 V'"},
    Entry{"swap.coil_resistance", "'400 Ohm'"},
    Entry{"swap.pick_up", "'6.5 V'"},
    Entry{"swap.release", "'3 V'"},
    Entry{"swap.series_diodes", "4"},
    Entry{"swap.contact_rated", "'3 A'"},
    Entry{"swap.contact_voltage", "'30 V'"},
    Entry{"box.kind", "'box'"},
    Entry{"joins.plug_plus.terminals", "['shore.plus', 'jack.in1']"},
    Entry{"joins.plug_minus.terminals", "['shore.minus', 'jack.in2']"},
};

struct LeadEntry {
  const char* name;
  const char* from;
  const char* to;
  const char* length;
  const char* colour;
};

constexpr std::array leads{
    LeadEntry{"shore_plus", "jack.out1", "swap.work", "'200 mm'", "'RD'"},
    LeadEntry{"shore_return", "jack.out2", "board.p_minus", "'200 mm'", "'BK'"},
    LeadEntry{"coil_plus", "jack.out1", "swap.coil_plus", "'150 mm'", "'RD'"},
    LeadEntry{"coil_return", "swap.coil_minus", "board.p_minus", "'150 mm'", "'BK'"},
    LeadEntry{"charger_plus", "jack.out1", "charger.in_plus", "'150 mm'", "'RD'"},
    LeadEntry{"charger_return", "charger.in_minus", "board.p_minus", "'150 mm'", "'BK'"},
    LeadEntry{"charger_out", "charger.out_plus", "bar.w2", "'150 mm'", "'OG'"},
    LeadEntry{"pack_plus", "pack.plus", "f_pack.a", "'60 mm'", "'OG'"},
    LeadEntry{"pack_fused", "f_pack.b", "main.common", "'200 mm'", "'OG'"},
    LeadEntry{"pack_switched", "main.way1", "bar.w1", "'200 mm'", "'OG'"},
    LeadEntry{"pack_minus", "pack.minus", "board.b_minus", "'80 mm'", "'BK'"},
    LeadEntry{"board_plus", "pack.plus", "board.b_plus", "'90 mm'", "'OG'"},
    LeadEntry{"tap_1", "pack.tap1", "board.tap1", "'90 mm'", "'WH'"},
    LeadEntry{"tap_2", "pack.tap2", "board.tap2", "'90 mm'", "'GY'"},
    LeadEntry{"up12_plus", "bar.w3", "up12.in_plus", "'150 mm'", "'OG'"},
    LeadEntry{"up12_return", "up12.in_minus", "board.p_minus", "'150 mm'", "'BK'"},
    LeadEntry{"up12_out", "up12.out_plus", "swap.rest", "'150 mm'", "'RD'"},
    LeadEntry{"smooth_plus", "bar.w4", "smooth.plus", "'100 mm'", "'OG'"},
    LeadEntry{"smooth_return", "smooth.minus", "board.p_minus", "'100 mm'", "'BK'"},
    LeadEntry{"lamp_feed", "bar.w5", "f_lamp.a", "'150 mm'", "'OG'"},
    LeadEntry{"lamp_plus", "f_lamp.b", "lamp.plus", "'3 m'", "'OG'"},
    LeadEntry{"lamp_return", "lamp.minus", "board.p_minus", "'3 m'", "'BK'"},
    LeadEntry{"horn_plus", "swap.common", "horn.plus", "'2 m'", "'RD'"},
    LeadEntry{"horn_return", "horn.minus", "board.p_minus", "'2 m'", "'BK'"},
};

}  // namespace

build::Build jetty(const JettyChanges& changes) {
  Lines lines(parts.begin(), parts.end());
  for (const LeadEntry& lead : leads) {
    add_lead(lines, lead.name, lead.from, lead.to, lead.length);
    lines[std::string("leads.") + lead.name + ".colour"] = lead.colour;
  }
  for (const auto& [path, value] : changes) lines[path] = value;
  return read_or_fail(sheet_text(lines), "jetty.toml");
}

std::vector<finding::Finding> ask_jetty(const finding::Rule& rule, const JettyChanges& changes) {
  const build::Build build = jetty(changes);
  return rule.ask({build, {}});
}

finding::Finding ask_jetty(const finding::Rule& rule, const std::string& part,
                           const JettyChanges& changes) {
  return about(ask_jetty(rule, changes), part);
}

finding::Finding about(const std::vector<finding::Finding>& findings, const std::string& part) {
  for (const finding::Finding& finding : findings) {
    if (finding.part == part) return finding;
  }
  FAIL("nothing is found about ", part);
  return {};
}

}  // namespace tideover::test
