// How a fuse fails, and what stands in its place when someone was in a hurry.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "part/fuse/fuse.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// What the drawer holds when the right fuse has blown: common practice, no source.
constexpr Ampere from_the_drawer = 10.0_A;
/// As far as ratings go.
constexpr Ampere largest = 100.0_A;

/// The style in which a fuse of that rating is to be had: `own`, or else another.
std::optional<FuseStyle> style_of(Ampere rated, FuseStyle own) {
  if (own == FuseStyle::Own) return own;
  for (const FuseStyle style : {own, FuseStyle::TimeLag, FuseStyle::Quick, FuseStyle::Blade,
                                FuseStyle::Ul, FuseStyle::LargeBlade}) {
    if (find_gates(style, rated) != nullptr) return style;
  }
  return std::nullopt;
}

/// What was stated of the right fuse beside its rating says nothing of this one.
void replace(Fuse& fuse, Ampere rated, FuseStyle style) {
  put(fuse.rated, rated);
  fuse.style = style;
  fuse.resistance = {};
  fuse.melting = {};
}

void add_replacement(const Fuse& fuse, Ampere rated, const char* means,
                     std::vector<FailureMode>& modes) {
  const auto style = style_of(rated, fuse.style);
  if (!style || rated.si() <= 0.0 || rated > largest) return;
  modes.push_back(
      {fmt::format("replaced by {:g} A", rated.si()),
       means,
       {},
       altering<Fuse>([rated, style = *style](Fuse& it) { replace(it, rated, style); })});
}

}  // namespace

std::vector<FailureMode> Fuse::failure_modes() const {
  std::vector<FailureMode> modes{
      {"blown", "it is open", {opened("a")}},
      {"bridged", "someone has bridged it: it never opens", {bridged("a", "b")}},
      {"loose in its holder",
       "its holder makes a poor contact and gets hot",
       {resistive("a", poor_contact)}}};
  add_replacement(*this, std::max(from_the_drawer, 2.0 * rated.nominal()),
                  "what the drawer held stands in its place: it no longer protects its lead",
                  modes);
  add_replacement(*this, 0.5 * rated.nominal(),
                  "one of half its rating stands in its place and may open for nothing", modes);
  const bool is_slow = style == FuseStyle::TimeLag || style == FuseStyle::TimeLagHighBreaking;
  if (is_slow && find_gates(FuseStyle::Quick, rated.nominal()) != nullptr) {
    modes.push_back(
        {"replaced by a quick one",
         "it does not stand the surge of switching on",
         {},
         altering<Fuse>([](Fuse& it) { replace(it, it.rated.nominal(), FuseStyle::Quick); })});
  }
  return modes;
}

}  // namespace tideover::part
