#include "build/points.hpp"

namespace tideover::build {

namespace {

void unite(const std::vector<TerminalName>& terminals, Points& points) {
  for (const TerminalName& terminal : terminals) points.merge(terminals.front(), terminal);
}

}  // namespace

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
      for (const std::string& terminal : group) terminals.push_back({part->name, terminal});
      unite(terminals, points);
    }
  }
  return points;
}

}  // namespace tideover::build
