/// The timeline's words turned into what parts hear.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "network/behaviour.hpp"

namespace tideover::run {

/// One stimulus a part concerned: a change for every adapter becomes one for each.
[[nodiscard]] std::vector<network::Stimulus> stimuli_of(const build::Build& build,
                                                        const build::Change& change);

/// Which adapters are on the mains as changes pass, in words for the record.
class MainsState {
 public:
  explicit MainsState(const build::Build& build);
  void apply(const build::Change& change);
  [[nodiscard]] bool all_present() const;
  /// "mains present", "mains absent", "mains24 without mains, mains12 unplugged".
  [[nodiscard]] std::string words() const;

 private:
  struct Adapter {
    std::string name;
    build::Change::Mains mains{};
  };
  std::vector<Adapter> adapters_;
};

}  // namespace tideover::run
