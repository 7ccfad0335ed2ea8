/// A part of a build: its values, its terminals, its equations.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "part/description.hpp"

namespace tideover::part {

class Installer;
struct Symbol;

/// What a terminal is, for wiring checks, drawings and colour rules.
enum class Role {
  Plus,     ///< a positive supply terminal
  Minus,    ///< a negative supply or return terminal
  Tap,      ///< between two cell groups
  Contact,  ///< of a relay, switch, fuse, connector: either way round
  Coil,
  Signal,  ///< a signal ground or sense line
  Earth,   ///< the mains earth: one point in the whole building
};

struct Terminal {
  std::string name;  ///< as written after the dot: "plus", "tap2"
  Role role{};
  bool must_be_wired = true;
  std::string means;  ///< in words: "feeds the sea gauge"
};

/// A way in which a kind of part fails.
struct FailureMode {
  std::string name;   ///< "contacts welded"
  std::string means;  ///< what the part then does
};

/// Where a meter goes on the bench, and what it reads there.
struct TestPoint {
  std::string plus;   ///< terminal under the red probe
  std::string minus;  ///< terminal under the black probe
  std::string reads;  ///< "output voltage"
};

/// Which air a part stands in.
enum class Whereabouts { Box, Outside };

class Part : public Described {
 public:
  [[nodiscard]] virtual std::unique_ptr<Part> clone() const = 0;
  /// Valid once the values have been read.
  [[nodiscard]] virtual std::vector<Terminal> terminals() const = 0;
  /// Groups of terminals joined inside the part whatever its state, such as a common minus.
  [[nodiscard]] virtual std::vector<std::vector<std::string>> joined_inside() const { return {}; }
  [[nodiscard]] virtual std::vector<FailureMode> failure_modes() const = 0;
  [[nodiscard]] virtual std::vector<TestPoint> test_points() const { return {}; }
  /// How it is drawn, as it is now: with its poles, groups, ways.
  [[nodiscard]] virtual Symbol symbol() const = 0;
  /// What is wrong between the values of this part, each as a sentence for the builder that
  /// begins with the key it concerns ("release: must lie below pick_up"); empty if nothing.
  [[nodiscard]] virtual std::vector<std::string> contradictions() const { return {}; }
  /// Where a reading takes the place of a label or moves a class of parts: a sentence each, with
  /// both numbers, that begins with the key it concerns.
  [[nodiscard]] virtual std::vector<std::string> remarks() const { return {}; }
  /// Heat the part's body takes up per kelvin, and its way to the air around it.
  [[nodiscard]] virtual quantity::JoulePerKelvin heat_of_body() const {
    return body_heat.nominal();
  }
  [[nodiscard]] virtual quantity::KelvinPerWatt path_of_body() const {
    return body_resistance.nominal();
  }
  /// Puts the part's elements, behaviours, channels and ratings into the network.
  virtual void install(Installer& installer) const = 0;

  std::string name;  ///< the sheet's key
  std::string note;  ///< the builder's own words
  Whereabouts where = Whereabouts::Box;
  quantity::Value<quantity::KelvinPerWatt> body_resistance{
      quantity::KelvinPerWatt::of_si(25.0)};  ///< from the part's body to the air around it
  quantity::Value<quantity::JoulePerKelvin> body_heat{quantity::JoulePerKelvin::of_si(20.0)};
};

/// Fields every part has: `where`, `note`.
[[nodiscard]] std::vector<Field> fields_of_every_part();
/// `body_resistance` and `body_heat`, for kinds that give off heat.
[[nodiscard]] std::vector<Field> fields_of_warm_parts(const std::string& default_source);

}  // namespace tideover::part
