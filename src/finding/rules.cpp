#include "finding/rules.hpp"

#include <algorithm>
#include <string>
#include <string_view>

#include "finding/rule_list.hpp"

namespace tideover::finding {

namespace {

/// What can hurt or break something first, then what fails, what nobody knows, what is near.
int rank(const Found& found) {
  switch (found.finding.answer) {
    case Answer::Fails: return found.rule->is_harm ? 0 : 1;
    case Answer::Unknown: return 2;
    case Answer::Tight: return 3;
    case Answer::Classed: return 4;
    case Answer::Holds: break;
  }
  return 5;
}

/// What is found of a lead calls it by its name; what is to be changed keeps its path in the sheet.
void call_lead_by_name(Finding& finding) {
  constexpr std::string_view prefix = "leads.";
  if (!finding.part.starts_with(prefix)) return;
  const std::string name = "lead " + finding.part.substr(prefix.size());
  for (std::string* const text : {&finding.sentence, &finding.brief}) {
    const std::size_t at = text->find(finding.part);
    if (at != std::string::npos) text->replace(at, finding.part.size(), name);
  }
}

}  // namespace

std::span<const Rule> all_rules() {
  static const std::vector<Rule> rules{
      polarity(),
      breaks(),
      pack_off(),
      load_voltage(),
      load_overfed(),
      adapter_loading(),
      adapter_voltage_fits(),
      charger_spare(),
      converter_input(),
      converter_drop_out(),
      converter_power(),
      charge_voltage(),
      charge_release(),
      balancing_reachable(),
      cell_charge_current(),
      cell_discharge_current(),
      cut_off_order(),
      board_current(),
      cold_charging(),
      cell_temperature(),
      part_temperature(),
      chatter(),
      wire_loss(),
      rating(),
      // protection, contacts, classes and marks
      fuse_for_each_source(),
      fuse_for_each_lead(),
      lead_withstand(),
      lead_ampacity(),
      fuse_loading(),
      fuse_voltage(),
      fuse_breaking(),
      fuse_selectivity(),
      fuse_inrush(),
      relay_pick_up(),
      relay_release(),
      relay_contact(),
      switch_current(),
      connector_current(),
      terminal_current(),
      diode_current(),
      diode_heat(),
      capacitor_voltage(),
      capacitor_inrush(),
      box_ventilation(),
      storage_discharge(),
      voltage_class(),
      power_class(),
      transport_class(),
      polarity_marking(),
      colour_marking(),
  };
  return rules;
}

const Rule* find_rule(std::string_view key) {
  const auto found = std::ranges::find(all_rules(), key, &Rule::key);
  return found == all_rules().end() ? nullptr : &*found;
}

std::vector<Found> check(const Evidence& evidence) {
  std::vector<Found> all;
  for (const Rule& rule : all_rules()) {
    for (Finding& finding : rule.ask(evidence)) {
      call_lead_by_name(finding);
      all.push_back({&rule, std::move(finding)});
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Found& one, const Found& other) { return rank(one) < rank(other); });
  return all;
}

}  // namespace tideover::finding
