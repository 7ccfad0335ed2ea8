// A small supply on a jetty with what guards and switches it: fuses, plug, switch, relay, smoothing
// capacitor, box. A sheet of which tests change single values.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "finding/finding.hpp"
#include "support/sheet_text.hpp"

namespace tideover::test {

// Adapter shore (12 V, 2 A, hiccup) feeds horn (9 V to 15 V, 4
// W) through the work contact of relay swap, whose coil follows it, and the charger (12.3 V, 1 A).
// Pack of 3 groups of 2 cells with board and fuse f_pack (5 A blade), switch main, bar; from there
// up12 (12.6 V) by the rest contact to horn, fuse f_lamp (1 A time-lag) and lamp (9 V to 13 V, 2
// W), capacitor smooth (1000 uF) beside up12's input.
using JettyChanges = Lines;
[[nodiscard]] build::Build jetty(const JettyChanges& changes = {});

// What one rule finds in the jetty's sheet alone.
[[nodiscard]] std::vector<finding::Finding> ask_jetty(const finding::Rule& rule,
                                                      const JettyChanges& changes = {});
// Of those, the one about a part or lead; fails the test where there is none.
[[nodiscard]] finding::Finding ask_jetty(const finding::Rule& rule, const std::string& about,
                                         const JettyChanges& changes = {});
[[nodiscard]] finding::Finding about(const std::vector<finding::Finding>& findings,
                                     const std::string& part);

}  // namespace tideover::test
