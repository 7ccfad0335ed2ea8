#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/inrush.hpp"
#include "finding/rule_list.hpp"
#include "part/adapter/adapter.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Farad;
using quantity::Ohm;
using quantity::Second;

namespace {

/// Least resistance from the source to a plus it feeds.
Ohm least_way(const build::Build& build, const Feeding& feeding, const Source& source) {
  Ohm least = Ohm::of_si(0.0);
  bool is_first = true;
  for (const auto& part : build.parts) {
    if (part.get() == source.part) continue;
    for (const part::Terminal& terminal : part->terminals()) {
      const build::TerminalName at{part->name, terminal.name};
      if (terminal.role != part::Role::Plus || !feeding.feed(source, at)) continue;
      const Path path = feeding.path(source, at);
      const Ohm way = path.resistance + path.leads;  // and back
      if (is_first || way < least) least = way;
      is_first = false;
    }
  }
  return least;
}

double peak_of(const part::ProtectionBoard& board, const Source& source, const CapacitorBank& bank,
               Ohm way) {
  const Ohm all = source.least_resistance + way + board.path_resistance.nominal() + bank.esr;
  return (source.highest / all).si();
}

Finding unknown(const part::ProtectionBoard& board, const Source& source, const CapacitorBank& bank,
                Ohm way) {
  const std::string peak = shown<Ampere>(peak_of(board, source, bank, way), 3);
  return {
      .part = board.name,
      .answer = Answer::Unknown,
      .sentence = fmt::format(
          "Switched onto {} of empty capacitors {} drives {}; what {} takes for a short circuit "
          "is not given.",
          quantity::show(bank.capacitance), source.part->name, peak, board.name),
      .advice = fmt::format(
          "{}: short_circuit and short_circuit_delay = what its sheet says; nothing trips at {} "
          "or more.",
          board.name, peak),
      .unknown = {board.name + ".short_circuit"}};
}

/// Through the board the pack fills the bank; i = U/R exp(-t / (R C)) falls to what the board calls
/// a short circuit after R C ln(U / (R I)).
Finding of_board(const part::ProtectionBoard& board, const Source& source,
                 const CapacitorBank& bank, Ohm way) {
  const double peak_a = peak_of(board, source, bank, way);
  const double r_ohm = source.highest.si() / peak_a;
  const double trips_a = board.short_circuit.low_si;
  const double above_s =
      peak_a > trips_a ? r_ohm * bank.capacitance.si() * std::log(peak_a / trips_a) : 0.0;
  Finding finding = measured_against<Second>(board.name, above_s, board.short_circuit_delay.low_si,
                                             Limits::Above);
  finding.sentence = fmt::format(
      "Switched onto {} of empty capacitors {} drives {}, and stays above the {} that {} takes for "
      "a short circuit for {}; it waits {}.",
      quantity::show(bank.capacitance), source.part->name, shown<Ampere>(peak_a, 3),
      shown<Ampere>(trips_a, 3), board.name, quantity::show(Second::of_si(above_s)),
      quantity::show(Second::of_si(board.short_circuit_delay.low_si)));
  if (finding.answer == Answer::Holds) return finding;
  // So much in the way that the peak itself is below it.
  const double more_ohm = source.highest.si() / (trips_a * (1.0 - tight_share)) - r_ohm;
  finding.advice = fmt::format(
      "{}: short_circuit_delay = {} or more, or {} between pack and capacitors, bridged when they "
      "are full.",
      board.name, rounded_up(Second::of_si(above_s / (1.0 - tight_share)), Second::of_si(1e-5)),
      rounded_up(Ohm::of_si(more_ohm), Ohm::of_si(1e-2)));
  return finding;
}

/// At its limit an adapter needs C U / I; one that hiccups gives up after its burst.
Finding of_adapter(const part::Adapter& adapter, const Source& source, const CapacitorBank& bank) {
  const double fills_s =
      (bank.capacitance + source.capacitance).si() * source.highest.si() / source.limit->si();
  Finding finding =
      measured_against<Second>(adapter.name, fills_s, adapter.hiccup_on.low_si, Limits::Above);
  finding.sentence = fmt::format(
      "{} fills {} of capacitors at its limit of {} within {}; it tries for {} before it gives up.",
      adapter.name, quantity::show(bank.capacitance), shown<Ampere>(source.limit->si(), 3),
      quantity::show(Second::of_si(fills_s)),
      quantity::show(Second::of_si(adapter.hiccup_on.low_si)));
  if (finding.answer == Answer::Holds) return finding;
  const double most_f =
      (1.0 - tight_share) * adapter.hiccup_on.low_si * source.limit->si() / source.highest.si() -
      source.capacitance.si();
  finding.advice = fmt::format(
      "{}: no more than {} of capacitors on its rail, the rest behind a soft start.", adapter.name,
      rounded_down(Farad::of_si(std::max(0.0, most_f)), Farad::of_si(1e-5)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const build::Build& build = evidence.build;
  const Feeding feeding(build);
  std::vector<Finding> found;
  for (const Source& source : feeding.sources()) {
    const bool is_plus = source.plus.terminal == "plus";
    const auto* const adapter = dynamic_cast<const part::Adapter*>(source.part);
    const bool hiccups = adapter != nullptr && adapter->overload == part::Overload::Hiccup;
    if (!is_plus || (source.limit && !hiccups)) continue;
    const CapacitorBank bank = bank_behind(build, feeding, source, nullptr);
    if (bank.capacitance.si() <= 0.0) continue;
    if (hiccups) {
      found.push_back(of_adapter(*adapter, source, bank));
      continue;
    }
    const Ohm way = least_way(build, feeding, source);
    for (const auto* board : parts_of<part::ProtectionBoard>(build)) {
      if (!feeding.returns(source, {board->name, "p_minus"})) continue;
      found.push_back(board->short_circuit.given ? of_board(*board, source, bank, way)
                                                 : unknown(*board, source, bank, way));
    }
  }
  return found;
}

}  // namespace

const Rule& capacitor_inrush() {
  static const Rule rule{
      .key = "capacitor_inrush",
      .title = "Inrush into capacitors",
      .words =
          "Empty capacitors look like a short circuit for a moment. A protection board that is too "
          "quick trips when the pack is switched on, and an adapter that hiccups never gets them "
          "full.",
      .formula = "R C ln(U / (R I_trip)) <= t_trip; C U / I_limit <= t_hiccup",
      .source = "Kirchhoff's laws; common practice, no source",
      .caution = "The spark of an inrush pits plugs and switches: connect the pack once, quickly.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
