#include "finding/inrush.hpp"

#include "part/capacitor/capacitor.hpp"
#include "part/converter/board.hpp"
#include "part/load/load.hpp"

namespace tideover::finding {

using namespace quantity;

namespace {

/// A capacitor at one terminal of a part.
struct Holder {
  const char* plus;
  Farad capacitance;
  Ohm esr;
};

Farad most_of(const Value<Farad>& value) { return value.high(); }

std::vector<Holder> holders_of(const part::Part& part) {
  if (const auto* load = dynamic_cast<const part::Load*>(&part)) {
    return {{"plus", most_of(load->input_capacitance), load->input_esr.low()}};
  }
  if (const auto* capacitor = dynamic_cast<const part::Capacitor*>(&part)) {
    return {{"plus", most_of(capacitor->capacitance), capacitor->esr.low()}};
  }
  if (const auto* board = dynamic_cast<const part::ConverterBoard*>(&part)) {
    return {{"in_plus", most_of(board->input_capacitance), board->input_esr.low()},
            {"out_plus", most_of(board->output_capacitance), board->output_esr.low()}};
  }
  return {};
}

}  // namespace

CapacitorBank bank_behind(const build::Build& build, const Feeding& feeding, const Source& source,
                          const void* through) {
  CapacitorBank bank;
  double esr_s = 0.0;
  for (const auto& part : build.parts) {
    if (part.get() == source.part) continue;
    for (const Holder& holder : holders_of(*part)) {
      const build::TerminalName at{part->name, holder.plus};
      if (!feeding.feed(source, at)) continue;
      if (through != nullptr && feeding.feed(source, at, through)) continue;
      bank.capacitance += holder.capacitance;
      esr_s += 1.0 / std::max(holder.esr.si(), 1e-3);
    }
  }
  if (esr_s > 0.0) bank.esr = Ohm::of_si(1.0 / esr_s);
  return bank;
}

AmpereSquaredSecond inrush_integral(const Source& source, const CapacitorBank& bank, Ohm way) {
  const double c_f = bank.capacitance.si();
  const double u_v = source.highest.si();
  if (c_f <= 0.0) return {};
  if (!source.limit) {
    const double r_ohm = (source.least_resistance + way + bank.esr).si();
    return AmpereSquaredSecond::of_si(c_f * u_v * u_v / (2.0 * r_ohm));
  }
  const double own_f = source.capacitance.si();
  const double shared_f = own_f > 0.0 ? c_f * own_f / (c_f + own_f) : 0.0;
  const double r_ohm = (source.capacitor_resistance + way + bank.esr).si();
  return AmpereSquaredSecond::of_si(shared_f * u_v * u_v / (2.0 * r_ohm) +
                                    source.limit->si() * c_f * u_v);
}

}  // namespace tideover::finding
