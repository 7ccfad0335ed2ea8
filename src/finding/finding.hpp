/// A rule of the trade, and what it finds in one build.
///
/// A rule is one file of this folder, named for it. Its words stand in the terminal, the report and
/// the page alike.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finding/answer.hpp"
#include "finding/evidence.hpp"
#include "quantity/measure.hpp"

namespace tideover::finding {

/// A number of a finding, with what it measures.
struct Figure {
  double value_si = 0.0;
  quantity::Measure measure;
};

struct Finding {
  std::string part;  ///< the sheet's name of the part or lead it is about
  Answer answer{};
  std::optional<Figure> measured = {};  ///< what it comes to; empty where unknown
  std::optional<Figure> limit = {};
  /// Share of the limit that is left, negative where it is exceeded; empty where unknown or where
  /// a share means nothing.
  std::optional<double> margin = {};
  std::string sentence = {};  ///< what came out, with both numbers
  std::string advice = {};    ///< the part and the number to change; empty where it holds
  /// Of what can do harm, for the headline: "f_sea blows"; empty: the rule's title and the part.
  std::string brief = {};
  std::vector<std::string> unknown =
      {};  ///< paths of the values to measure: "pack_fuse.breaking_dc"
};

/// Whether more of a figure is worse, or less.
enum class Limits { Above, Below };
/// Margin of a figure against its limit, as a share of the limit.
[[nodiscard]] double margin_of(double value_si, double limit_si, Limits limits);
/// Holds, Tight or Fails by `tight_share`.
[[nodiscard]] Answer answer_of(double margin);

/// What is known of a rule before any build is asked.
struct Rule {
  std::string_view key;      ///< "charge_voltage": for programs and the sheet
  std::string_view title;    ///< "Charge voltage of a cell"
  std::string_view words;    ///< the rule, as one builder tells it to another
  std::string_view formula;  ///< "U_charge (1 + tolerance) / n <= U_max of the cell"
  std::string_view source;   ///< a citation, or "common practice, no source"
  std::string_view caution;  ///< shown beside what it finds; may be empty
  bool is_harm = false;      ///< what fails here can hurt someone or break something
  /// One finding for each part or lead the rule is about; none where it is about nothing here.
  std::vector<Finding> (*ask)(const Evidence& evidence) = nullptr;
};

}  // namespace tideover::finding
