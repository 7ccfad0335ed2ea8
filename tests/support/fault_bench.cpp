#include "support/fault_bench.hpp"

#include <algorithm>

#include <doctest/doctest.h>

namespace tideover::test {

using question::FaultEffect;

namespace {

question::SoundRun sound_of(const build::Build& build) {
  base::NoProgress nobody;
  return question::sound_run(build, nobody);
}

}  // namespace

FaultBench::FaultBench(build::Build build)
    : build_(std::move(build)), sound_(sound_of(build_)), faults_(question::faults_of(build_)) {}

question::FaultEntry FaultBench::tried(const std::vector<std::string>& words) const {
  const auto fault = question::together(faults_, words);
  if (!fault) FAIL(base::show(fault.problems()));
  base::NoProgress nobody;
  return question::try_fault(build_, sound_, fault.value(), nobody);
}

const question::LoadEffect& seen_by(const FaultEffect& effect, const std::string& load) {
  const auto at = std::ranges::find(effect.loads, load, &question::LoadEffect::load);
  REQUIRE(at != effect.loads.end());
  return *at;
}

const question::ClearingBand* cleared_by(const FaultEffect& effect, const std::string& part,
                                         const std::string& words) {
  const auto at = std::ranges::find_if(effect.clearings, [&](const auto& band) {
    return band.part == part && band.words.starts_with(words);
  });
  return at == effect.clearings.end() ? nullptr : &*at;
}

bool says(const FaultEffect& effect, const std::string& words) {
  return std::ranges::any_of(effect.judgement.sentences, [&](const std::string& sentence) {
    return sentence.starts_with(words);
  });
}

}  // namespace tideover::test
