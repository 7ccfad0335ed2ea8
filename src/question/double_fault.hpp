/// Faults that are there together: on request, for pairs that a builder is afraid of.
#pragma once

#include "base/result.hpp"
#include "question/faults.hpp"

namespace tideover::question {

/// The faults of `faults` that the table calls so ("f_sea: bridged"), as one. What cannot arise in
/// the middle of an outage is there from the start, the others arise. Refused: a word that names no
/// fault, with the nearest that does; the same fault twice; two that both change the values of one
/// part.
[[nodiscard]] base::Result<Fault> together(const std::vector<Fault>& faults,
                                           const std::vector<std::string>& words);

/// A table of that one entry, the faults of `build` that `words` name.
[[nodiscard]] base::Result<FaultTable> double_fault(const build::Build& build,
                                                    const std::vector<std::string>& words,
                                                    base::Progress& progress);

}  // namespace tideover::question
