/// One build: everything a build sheet says, read and checked.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/problem.hpp"
#include "build/defect.hpp"
#include "part/part.hpp"
#include "part/wire/wire.hpp"
#include "quantity/value.hpp"

namespace tideover::build {

/// `[needs]`: what the supply is for. A span given with equal ends is a single value.
struct Needs final : part::Described {
  [[nodiscard]] const part::Description& description() const override { return describe(); }
  [[nodiscard]] static const part::Description& describe();

  quantity::Value<quantity::Second> outlast;   ///< every load served through an outage this long
  quantity::Value<quantity::Second> recharge;  ///< full again this long after the mains is back
  quantity::Span<quantity::Temperature> ambient{quantity::Temperature::of_celsius(20.0),
                                                quantity::Temperature::of_celsius(25.0)};
  quantity::Value<quantity::Second> life;  ///< years of service asked for
};

/// `[leads.NAME]`: one wire of the build.
struct Lead {
  std::string name;
  TerminalName from;
  TerminalName to;
  part::Wire wire;
};

/// `[joins.NAME]`: terminals that meet in one point, without a wire of their own.
struct Join {
  std::string name;
  std::vector<TerminalName> terminals;
};

/// What a stretch of a timeline changes at its beginning.
struct Change {
  enum class What {
    Mains,
    Switch,
    Profile,
    Ambient,
    Defects,  ///< what is latent in the build arises; no sheet says so
  };
  enum class Mains {
    Present,    ///< adapters are on the mains and plugged in
    Absent,     ///< no mains at the adapter's mains side
    Unplugged,  ///< its DC plug is pulled
  };
  What what{};
  std::string part;     ///< an adapter, switch or load; empty: every adapter
  Mains mains{};        ///< What::Mains
  int position = 0;     ///< What::Switch, counted from 0
  std::string profile;  ///< What::Profile
  quantity::Value<quantity::Temperature> ambient;  ///< What::Ambient
};

/// How a stretch ends: after a time, or when something has happened (at the latest after `lasts`
/// where both stand).
enum class Until { Time, FirstLoadLost, AllLoadsLost, PackCutOff, PackFull, LoadsServed };

struct Stretch {
  std::vector<Change> changes;
  std::optional<quantity::Value<quantity::Second>> lasts;
  Until until = Until::Time;
  base::Place place;
};

/// `[[timelines.NAME.stretch]]`, carried out in order, `repeats` times over.
struct Timeline {
  std::string name;
  std::vector<Stretch> stretches;
  int repeats = 1;
};

/// `[start]`: what a run starts from instead of the settled state.
struct Start {
  /// Part name -> what is stated of it.
  std::map<std::string, quantity::Value<quantity::Ratio>> charge;             ///< packs
  std::map<std::string, quantity::Value<quantity::Temperature>> temperature;  ///< bodies
  bool is_settled = true;  ///< false with `settled = false`: everything off, cold and at rest
};

struct Build {
  std::string title;
  std::string file;  ///< the sheet this came from
  Needs needs;
  std::vector<std::unique_ptr<part::Part>> parts;  ///< in the order of the sheet
  std::vector<Lead> leads;
  std::vector<Join> joins;
  std::vector<Timeline> timelines;
  Start start;
  std::vector<Defect> defects;  ///< none in a build as its sheet has it

  [[nodiscard]] const part::Part* find(std::string_view name) const;
  [[nodiscard]] Build copy() const;
};

}  // namespace tideover::build
