#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/inrush.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"
#include "finding/wiring.hpp"
#include "part/fuse/pulse_withstand.hpp"

namespace tideover::finding {

using quantity::AmpereSquaredSecond;
using quantity::Farad;

namespace {

/// Switched on or plugged in some four times a week for five years.
constexpr long pulses = 1000;

struct Inrush {
  AmpereSquaredSecond integral;
  Farad capacitance;
  const Source* source = nullptr;
};

Inrush worst_inrush(const build::Build& build, const Feeding& feeding, const part::Fuse& fuse) {
  Inrush worst;
  for (const Source& source : feeding.sources()) {
    if (source.is_through || source.plus.terminal.starts_with("tap")) continue;
    const CapacitorBank bank = bank_behind(build, feeding, source, &fuse);
    if (bank.capacitance.si() <= 0.0) continue;
    const Path to_a = feeding.path(source, {fuse.name, "a"});
    const Path to_b = feeding.path(source, {fuse.name, "b"});
    const auto way = std::max(to_a.resistance, to_b.resistance);
    const auto integral = inrush_integral(source, bank, way);
    if (integral > worst.integral) worst = {integral, bank.capacitance, &source};
  }
  return worst;
}

/// The next larger rating whose melting I2t, which goes with the square of it, is enough.
std::string advice_for(const part::Fuse& fuse, const Inrush& inrush, double allowed) {
  const double share = inrush.integral.si() / (1.0 - tight_share) / allowed;
  const auto rating = fuse_from(fuse.style, std::sqrt(share) * fuse.rated.nominal());
  std::string advice = fmt::format("{}: a slower one, with melting = {} or more", fuse.name,
                                   quantity::show(share * fuse.melting_integral()));
  if (rating && fuse.melting.si() <= 0.0) {
    advice = fmt::format("{}: rated = {} or more if the leads behind it allow, or a slower one",
                         fuse.name, quantity::show(*rating));
  }
  return advice + ", or a soft start before the capacitors.";
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  const double share = part::allowed_pulse_share(pulses).value_or(quantity::Ratio{}).si();
  std::vector<Finding> found;
  for (const part::Fuse* fuse : parts_of<part::Fuse>(evidence.build)) {
    const Inrush inrush = worst_inrush(evidence.build, feeding, *fuse);
    if (inrush.source == nullptr) continue;
    const double allowed = share * fuse->melting_integral().si();
    Finding finding = measured_against<AmpereSquaredSecond>(fuse->name, inrush.integral.si(),
                                                            allowed, Limits::Above);
    finding.sentence = fmt::format(
        "Filling {} behind {} from {} takes {}; it stands {} a thousand times, {:.0f} % of what "
        "melts it.",
        quantity::show(inrush.capacitance), fuse->name, inrush.source->part->name,
        quantity::show(inrush.integral), quantity::show(AmpereSquaredSecond::of_si(allowed)),
        100.0 * share);
    if (finding.answer != Answer::Holds) finding.advice = advice_for(*fuse, inrush, allowed);
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& fuse_inrush() {
  static const Rule rule{
      .key = "fuse_inrush",
      .title = "Inrush through a fuse",
      .words =
          "Empty capacitors draw a pulse when the pack is switched on or a device is plugged in. "
          "Each pulse wears the fuse: to stand a thousand of them one may have 38 % of the I2t "
          "that melts it.",
      .formula = "C U^2 / (2 R) <= 0.38 I2t_melting",
      .source = "a fuse maker's published guide, pulse withstand for 1000 pulses (read)",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
