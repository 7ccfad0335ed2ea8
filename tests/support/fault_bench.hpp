// One build on which single faults are tried, and what became of it.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "question/double_fault.hpp"

namespace tideover::test {

class FaultBench {
 public:
  explicit FaultBench(build::Build build);
  FaultBench(const FaultBench&) = delete;
  FaultBench& operator=(const FaultBench&) = delete;

  // The fault, or the faults together, as the table calls them; fails the test where there are
  // none.
  [[nodiscard]] question::FaultEntry tried(const std::vector<std::string>& words) const;
  [[nodiscard]] const question::SoundRun& sound() const { return sound_; }
  [[nodiscard]] const std::vector<question::Fault>& faults() const { return faults_; }

 private:
  build::Build build_;
  question::SoundRun sound_;
  std::vector<question::Fault> faults_;
};

// What the load of that name sees; fails the test where there is none.
[[nodiscard]] const question::LoadEffect& seen_by(const question::FaultEffect& effect,
                                                  const std::string& load);
// What the part of that name puts an end to, in words that begin so; nothing if it does not.
[[nodiscard]] const question::ClearingBand* cleared_by(const question::FaultEffect& effect,
                                                       const std::string& part,
                                                       const std::string& words);
// Whether a sentence of the effect begins so.
[[nodiscard]] bool says(const question::FaultEffect& effect, const std::string& words);

}  // namespace tideover::test
