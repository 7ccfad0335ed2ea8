#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_loss.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Ratio;

namespace {

/// The load's own leads in the case that loses most in them.
struct Way {
  WayLoss loss;
  const Case* in = nullptr;
};

std::vector<Way> worst_ways(const Evidence& evidence) {
  std::vector<Way> worst;
  for (const Case& one : evidence.cases) {
    for (WayLoss& loss : way_losses(evidence.build, *one.record, one.circumstances.ambient)) {
      const auto same = std::ranges::find_if(
          worst, [&](const Way& known) { return known.loss.load == loss.load; });
      if (same == worst.end()) {
        worst.push_back({std::move(loss), &one});
      } else if (loss.share() > same->loss.share()) {
        *same = {std::move(loss), &one};
      }
    }
  }
  return worst;
}

Finding finding_of(const build::Build& build, const Way& way) {
  const WayLoss& loss = way.loss;
  Finding finding =
      measured_against<Ratio>(loss.load, loss.share(), wire_loss_share, Limits::Above);
  finding.answer = loss.share() <= wire_loss_share ? Answer::Holds : Answer::Tight;
  finding.sentence = fmt::format(
      "{} loses {} of {} in its own leads, {:.1f} %, at {}; {:.0f} % is enough; most of it in {} "
      "({}).",
      loss.load, quantity::show(loss.drop), quantity::show(loss.fed), 100.0 * loss.share(),
      quantity::show(loss.current), 100.0 * wire_loss_share, loss.leads.front(), way.in->words);
  if (finding.answer == Answer::Holds) return finding;
  for (const build::Lead& lead : build.leads) {
    if (lead.name != loss.leads.front()) continue;
    const double mm2 = 1e6 * lead.wire.size.si() * loss.share() / wire_loss_share;
    finding.advice = fmt::format(
        "leads.{}: size = {:.2g} mm2 or more, and the lead that goes back with it; or shorter.",
        lead.name, std::ceil(mm2 * 20.0) / 20.0);
  }
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const Way& way : worst_ways(evidence)) {
    if (!way.loss.leads.empty()) found.push_back(finding_of(evidence.build, way));
  }
  return found;
}

}  // namespace

const Rule& wire_loss() {
  static const Rule rule{
      .key = "wire_loss",
      .title = "Voltage lost in a device's own leads",
      .words =
          "The leads of a device, there and back, lose no more than a twentieth of its voltage "
          "while it takes its most.",
      .formula = "I sum of R / U <= 0.05, over all leads that carry its current and nothing else's",
      .source =
          "IEC 60364-5-52, table G.52.1, uses other than lighting on a public supply, from "
          "memory",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
