// A small supply for a beacon on a breakwater, as a sheet of which tests change single values, and
// runs of it written by hand.
#pragma once

#include <string>

#include "build/build.hpp"
#include "finding/finding.hpp"
#include "run/record.hpp"
#include "support/sheet_text.hpp"

namespace tideover::test {

// "charger.voltage" -> "12.9 V": a value to set or to add; empty: a line to leave out. "needs" and
// "leads.NAME" count as parts; "pack.cell" is given whole.
using Changes = Lines;

// Adapter mains24 (24 V, 2 A) feeds lamp (20 V to 28 V, 8 W) through d_mains and charger (12.3 V,
// 1 A); pack of 3 groups of 2 cells with board, fuse f_pack
// (5 A) and switch main; up24 (23 V) feeds lamp from the pack through
// d_pack, down5 (5 V) feeds clock (4.7 V to 5.3 V, 1 W).
[[nodiscard]] std::string beacon_sheet(const Changes& changes = {});
[[nodiscard]] build::Build beacon(const Changes& changes = {});

// What one rule finds in the beacon's sheet alone.
[[nodiscard]] std::vector<finding::Finding> ask(const finding::Rule& rule,
                                                const Changes& changes = {});
// And in runs as well; the first has `words` "as is", the next "worn".
[[nodiscard]] std::vector<finding::Finding> ask(const finding::Rule& rule,
                                                const build::Build& build,
                                                const std::vector<run::Record>& records);

// An hour of mains, five without, ten with; nothing happens unless it is said.
class BeaconRun {
 public:
  BeaconRun();
  // Values of a channel while the mains is there and while it is not.
  BeaconRun& channel(const std::string& part, const std::string& name,
                     quantity::Dimension dimension, double on_mains_si, double in_the_dark_si,
                     bool is_temperature = false);
  BeaconRun& overload(const std::string& part, const std::string& rating,
                      const std::string& channel, double limit_si, double worst_si);
  [[nodiscard]] const run::Record& record() const { return record_; }
  run::Record& record() { return record_; }

 private:
  run::Record record_;
};

}  // namespace tideover::test
