#include "build/points.hpp"

namespace tideover::build {

namespace {

void unite(const std::vector<TerminalName>& terminals, Points& points) {
  for (const TerminalName& terminal : terminals) points.merge(terminals.front(), terminal);
}

/// Lowest is best: the minus of an adapter, then any minus.
int rank_as_reference(const part::Part& part, const part::Terminal& terminal) {
  if (terminal.role != part::Role::Minus) return 2;
  return part.description().name == "adapter" ? 0 : 1;
}

/// No sheet can name such a terminal.
constexpr const char* mark_of_inside = "~";

}  // namespace

TerminalName common_of(const Build& build) {
  TerminalName best;
  int best_rank = 3;
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      const int rank = rank_as_reference(*part, terminal);
      if (rank >= best_rank) continue;
      best_rank = rank;
      best = {part->name, terminal.name};
    }
  }
  return best;
}

TerminalName behind(const Build& build, const TerminalName& terminal) {
  using What = part::Damage::What;
  for (const Defect& defect : build.defects) {
    if (!defect.lead.empty()) continue;
    if (defect.what == What::Exchanged) {
      if (defect.terminal == terminal) return defect.other;
      if (defect.other == terminal) return defect.terminal;
    } else if (defect.what != What::Bridged && defect.terminal == terminal) {
      return {terminal.part, terminal.terminal + mark_of_inside};
    }
  }
  return terminal;
}

Points points_of(const Build& build) {
  Points points;
  for (const Join& join : build.joins) unite(join.terminals, points);
  std::vector<TerminalName> earths;
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      if (terminal.role == part::Role::Earth) earths.push_back({part->name, terminal.name});
    }
  }
  unite(earths, points);
  for (const auto& part : build.parts) {
    for (const auto& group : part->joined_inside()) {
      std::vector<TerminalName> terminals;
      terminals.reserve(group.size());
      for (const std::string& terminal : group) {
        terminals.push_back(behind(build, {part->name, terminal}));
      }
      unite(terminals, points);
    }
  }
  return points;
}

}  // namespace tideover::build
