#include "finding/finding.hpp"

#include <cmath>

namespace tideover::finding {

std::string_view in_words(Answer answer) {
  switch (answer) {
    case Answer::Holds: return "holds";
    case Answer::Tight: return "tight";
    case Answer::Fails: return "fails";
    case Answer::Unknown: return "unknown";
    case Answer::Classed: return "class";
  }
  return "";
}

double margin_of(double value_si, double limit_si, Limits limits) {
  const double size = std::abs(limit_si);
  const double left = limits == Limits::Above ? limit_si - value_si : value_si - limit_si;
  return size > 0.0 ? left / size : left;
}

Answer answer_of(double margin) {
  if (!(margin >= 0.0)) return Answer::Fails;
  return margin < tight_share ? Answer::Tight : Answer::Holds;
}

}  // namespace tideover::finding
