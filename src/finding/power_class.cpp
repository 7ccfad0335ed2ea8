#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Watt;

namespace {

/// IEC 62368-1, 6.2.2: PS1 up to 15 W after 3 s, PS2 up to 100 W after 5 s. The limits from memory.
constexpr double first_w = 15.0;
constexpr double second_w = 100.0;
constexpr double after_first_s = 3.0;
constexpr double after_second_s = 5.0;

/// The largest current a fuse may still carry after `after_s`.
double carried_a(const part::Fuse& fuse, double after_s) {
  double low_a = fuse.rated.si();
  double high_a = 100.0 * low_a;
  for (int k = 0; k < 50; ++k) {
    const double middle_a = std::sqrt(low_a * high_a);
    const auto opens = fuse.opening_time(Ampere::of_si(middle_a), part::FuseLaw::Latest);
    (!opens || opens->si() > after_s ? low_a : high_a) = middle_a;
  }
  return low_a;
}

/// The fuse next to a pack: every way to something it feeds leads through it.
const part::Fuse* fuse_of(const build::Build& build, const Feeding& feeding, const Source& source) {
  const part::Fuse* found = nullptr;
  for (const part::Fuse* fuse : parts_of<part::Fuse>(build)) {
    const bool is_first = feeding.unfused(source, {fuse->name, "a"}).has_value() ||
                          feeding.unfused(source, {fuse->name, "b"}).has_value();
    if (is_first && (found == nullptr || fuse->rated.si() > found->rated.si())) found = fuse;
  }
  return found;
}

/// What can be drawn from it for so long.
double power_w(const Source& source, const part::Fuse* fuse, double after_s) {
  const double u_v = source.highest.si();
  if (source.limit) return u_v * source.limit->si();
  const double r_ohm = source.least_resistance.si();
  const double matched_a = u_v / (2.0 * r_ohm);
  const double most_a =
      fuse != nullptr ? std::min(matched_a, carried_a(*fuse, after_s)) : matched_a;
  return most_a * (u_v - most_a * r_ohm);
}

struct Class {
  const char* name;
  double power_w;
  double limit_w;
  const char* follows;
};

Class class_of(const Source& source, const part::Fuse* fuse) {
  const double early_w = power_w(source, fuse, after_first_s);
  const double late_w = power_w(source, fuse, after_second_s);
  if (early_w <= first_w)
    return {"PS1", early_w, first_w, "too little to set anything on fire, the standard holds"};
  if (late_w <= second_w) {
    return {"PS2", late_w, second_w,
            "it can: keep what burns away from joints and parts, and use flame-retardant boards"};
  }
  return {"PS3", late_w, second_w,
          "it can, and more: an enclosure that keeps fire in, with small openings"};
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const Source& source : feeding.sources()) {
    if (source.is_through || source.plus.terminal.starts_with("tap")) continue;
    const part::Fuse* const fuse =
        source.limit ? nullptr : fuse_of(evidence.build, feeding, source);
    const Class of = class_of(source, fuse);
    const quantity::Measure watts = quantity::measure_of<Watt>();
    Finding finding{.part = source.part->name,
                    .answer = Answer::Classed,
                    .measured = Figure{of.power_w, watts},
                    .limit = Figure{of.limit_w, watts}};
    if (of.power_w <= of.limit_w) {
      finding.margin = margin_of(of.power_w, of.limit_w, Limits::Above);
    }
    finding.sentence = fmt::format(
        "{} can give {} for seconds{}: {} ({} {}); {}.", source.part->name,
        shown<Watt>(of.power_w, 3), fuse != nullptr ? " behind " + fuse->name : "", of.name,
        of.power_w > of.limit_w ? "above" : "up to", shown<Watt>(of.limit_w), of.follows);
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& power_class() {
  static const Rule rule{
      .key = "power_class",
      .title = "Class of a source's power",
      .words =
          "What a source can give for some seconds decides whether a fault can start a fire and "
          "how the box must be built: up to 15 W not, up to 100 W with care for what lies near, "
          "above that in an enclosure that keeps fire in.",
      .formula = "PS1: P <= 15 W after 3 s; PS2: P <= 100 W after 5 s; PS3: above",
      .source =
          "IEC 62368-1, 6.2.2: 100 W as restated in two test reports (read), the rest from memory",
      .caution = "The class of a pack is that behind its fuse; before it there is no limit.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
