/// The fault table for paper: faults of equal effect in one row, each column in words.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "question/faults.hpp"

namespace tideover::papers {

/// Faults that the same devices feel in the same way, that exceed the same thing of the same part
/// and that the same fuses open.
struct FaultRow {
  std::vector<const question::FaultEntry*> faults;  ///< most dangerous first; at least one
  [[nodiscard]] const question::FaultEntry& worst() const { return *faults.front(); }
  [[nodiscard]] bool has_fuse() const;  ///< a fuse opens it, at its quickest or at its slowest
};

/// All faults of one severity; the row with the most dangerous fault first. They refer to `table`.
[[nodiscard]] std::vector<FaultRow> fault_rows(const question::FaultTable& table,
                                               question::Severity severity);

enum class Meaning { Told, LeftOut };
/// One string a mode: "leads up24_in, up24_out: comes off (it carries nothing any more)".
[[nodiscard]] std::vector<std::string> modes_in_words(
    const std::vector<const question::FaultEntry*>& faults, Meaning meaning);

// The cells of a row, one string a line; the worst of the row's faults is told where they differ.

/// What is exceeded, and what the fault comes to when it arises at another time.
[[nodiscard]] std::vector<std::string> harms_in_words(const FaultRow& row);
/// "sea, radio: lost as the mains goes". Times count from the loss of mains.
[[nodiscard]] std::vector<std::string> devices_in_words(const FaultRow& row);
/// "f_sea blows after 7.4 ms to 97 ms"; "no fuse" where one is missed. Fuses, boards, cut-outs and
/// adapters.
[[nodiscard]] std::vector<std::string> clearings_in_words(const build::Build& build,
                                                          const FaultRow& row);

}  // namespace tideover::papers
