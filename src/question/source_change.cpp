#include "question/source_change.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "build/parts_of.hpp"
#include "part/adapter/adapter.hpp"
#include "part/connector/connector.hpp"
#include "part/load/load.hpp"
#include "part/switch/switch.hpp"
#include "question/outage.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

using network::Effect;
using quantity::Second;
using run::Event;
using run::Record;

namespace {

/// Events of one instant may differ by rounding.
constexpr double same_instant_s = 1e-6;

bool is_at(const Event& event, Second at) {
  return std::abs((event.at - at).si()) <= same_instant_s;
}

std::string joined(const std::vector<Event>& events) {
  std::vector<std::pair<std::string, std::string>> told;  // what happens, to whom
  for (const Event& event : events) {
    const auto same =
        std::ranges::find(told, event.words, &std::pair<std::string, std::string>::first);
    if (same == told.end()) {
      told.emplace_back(event.words, event.part);
    } else {
      same->second += ", " + event.part;
    }
  }
  std::string words;
  for (const auto& [what, who] : told) {
    if (!words.empty()) words += "; ";
    words += who;
    words += ' ';
    words += what;
  }
  return words;
}

/// What everyone calls it where it concerns every adapter, else part by part.
std::string words_of(const std::vector<Event>& events, const run::StretchSpan& span) {
  const auto all = [&](Effect effect) {
    return std::ranges::all_of(events, [&](const Event& one) { return one.effect == effect; });
  };
  if (span.words == "mains absent" && all(Effect::MainsGoes)) return "the mains goes";
  if (span.has_mains && all(Effect::MainsReturns)) return "the mains comes back";
  return joined(events);
}

template <class Kind>
bool is_a(const build::Build& build, const std::string& part) {
  return dynamic_cast<const Kind*>(build.find(part)) != nullptr;
}

/// What a stretch changes makes itself heard at its very beginning: the first thing that adapters,
/// plugs and switches do there.
std::vector<Event> heard_at(const Record& record, const build::Build& build, Second at) {
  std::vector<Event> heard;
  for (const Event& event : record.events) {
    const bool is_meant = is_a<part::Adapter>(build, event.part) ||
                          is_a<part::Connector>(build, event.part) ||
                          is_a<part::Switch>(build, event.part);
    if (!is_at(event, at) || !is_meant) continue;
    if (std::ranges::find(heard, event.part, &Event::part) == heard.end()) heard.push_back(event);
  }
  return heard;
}

std::vector<SourceChange> planned(const Record& record, const build::Build& build) {
  std::vector<SourceChange> found;
  for (std::size_t k = 0; k < record.stretches.size(); ++k) {
    const run::StretchSpan& span = record.stretches[k];
    const std::vector<Event> heard = heard_at(record, build, span.begins);
    if (heard.empty()) continue;
    const bool is_switch = std::ranges::all_of(
        heard, [&](const Event& event) { return is_a<part::Switch>(build, event.part); });
    found.push_back({.what = is_switch ? SourceChange::What::Switch : SourceChange::What::Mains,
                     .at = span.begins,
                     .until = span.begins,
                     .words = words_of(heard, span),
                     .before = k == 0 ? "mains present" : record.stretches[k - 1].words,
                     .stretch = k});
  }
  return found;
}

const run::StretchSpan* stretch_at(const Record& record, Second at) {
  const run::StretchSpan* found = nullptr;
  for (const run::StretchSpan& span : record.stretches) {
    if (span.begins <= at) found = &span;
  }
  return found;
}

/// Boards: every cut-off, and every release by the part that cut off.
std::vector<SourceChange> of_boards(const Record& record) {
  std::vector<SourceChange> found;
  std::set<std::string> boards;
  for (const Event& event : record.events) {
    const bool cuts = event.effect == Effect::Stops &&
                      std::ranges::any_of(record.pack_cut_offs, [&](const run::Extreme& one) {
                        return is_at(event, one.at);
                      });
    if (cuts) boards.insert(event.part);
    const bool releases = event.effect == Effect::Resumes && boards.contains(event.part);
    if (!cuts && !releases) continue;
    const run::StretchSpan* const span = stretch_at(record, event.at);
    found.push_back({.what = cuts ? SourceChange::What::CutOff : SourceChange::What::Release,
                     .at = event.at,
                     .until = event.at,
                     .words = event.part + " " + event.words,
                     .before = span == nullptr ? "" : span->words});
  }
  return found;
}

/// One load's voltage as time passes.
struct Watched {
  AcceptedRange range;
  const std::vector<double>* volts = nullptr;
  double last_v = 0.0;  ///< when it last moved

  /// Whether anything is the matter with sample `k`.
  [[nodiscard]] bool stirs(std::size_t k) {
    const double v = (*volts)[k];
    const bool moves = std::abs(v - last_v) > moves_share * std::abs(last_v);
    if (moves) last_v = v;
    return moves || v < range.low.si() || v > range.high.si();
  }
};

/// Finds when changes are over.
class Watch {
 public:
  Watch(const Record& record, const std::vector<AcceptedRange>& loads) : record_(record) {
    for (const AcceptedRange& one : loads) {
      const int channel = record.find(one.load, "input voltage");
      if (channel < 0) continue;
      watched_.push_back({one, &record.samples_si[static_cast<std::size_t>(channel)]});
    }
  }

  /// Sets `until` and `is_over` for what begins at `at`.
  void follow(Second at, SourceChange& change) {
    const double end_s = record_.instants.empty() ? at.si() : record_.instants.back().si();
    const double last_s = std::min(end_s, at.si() + watched_s);
    double busy_s = at.si();
    bool has_begun = false;
    for (const Busy& busy : busy_times(at.si(), last_s)) {
      if (busy.from_s > busy_s + (has_begun ? quiet_s : patience_s)) break;
      busy_s = std::max(busy_s, busy.to_s);
      has_begun = has_begun || busy.to_s > at.si() + same_instant_s;
    }
    change.is_over = busy_s + quiet_s <= last_s;
    change.until = std::max(change.until, Second::of_si(std::min(last_s, busy_s + quiet_s)));
  }

 private:
  struct Busy {
    double from_s;
    double to_s;
  };
  /// By their begin: events, and steps in which a load's voltage moves or is out of its range.
  [[nodiscard]] std::vector<Busy> busy_times(double from_s, double to_s) {
    std::vector<Busy> busy;
    for (const Event& event : record_.events) {
      const double at_s = event.at.si();
      if (at_s >= from_s && at_s <= to_s) busy.push_back({at_s, at_s});
    }
    const auto& all = record_.instants;
    auto k = static_cast<std::size_t>(std::ranges::lower_bound(all, Second::of_si(from_s)) -
                                      all.begin());
    if (k == all.size()) return busy;
    for (Watched& one : watched_) one.last_v = (*one.volts)[k];
    for (++k; k < all.size() && all[k].si() <= to_s; ++k) {
      bool stirs = false;
      for (Watched& one : watched_) stirs = one.stirs(k) || stirs;
      if (stirs) busy.push_back({all[k - 1].si(), all[k].si()});
    }
    std::ranges::sort(busy, {}, &Busy::from_s);
    return busy;
  }

  const Record& record_;
  std::vector<Watched> watched_;
};

}  // namespace

std::vector<AcceptedRange> accepted_ranges(const build::Build& build) {
  std::vector<AcceptedRange> all;
  for (const part::Load* load : build::parts_of<part::Load>(build)) {
    all.push_back({load->name, load->accepts.low(), load->accepts.high(), load->rides.nominal()});
  }
  return all;
}

std::vector<SourceChange> source_changes_of(const Record& record, const build::Build& build) {
  std::vector<SourceChange> all = planned(record, build);
  for (SourceChange& one : of_boards(record)) all.push_back(std::move(one));
  // A mains that comes back as the pack is cut off does so behind it: adapters take their time.
  std::ranges::stable_sort(all, {}, [](const SourceChange& one) {
    return one.at.si() - (one.what == SourceChange::What::CutOff ? same_instant_s : 0.0);
  });
  Watch watch(record, accepted_ranges(build));
  std::vector<SourceChange> merged;
  for (SourceChange& one : all) {
    const bool is_under_way = !merged.empty() && one.at <= merged.back().until &&
                              (one.at - merged.back().at).si() <= watched_s;
    if (!is_under_way) {
      watch.follow(one.at, one);
      merged.push_back(std::move(one));
      continue;
    }
    SourceChange& first = merged.back();
    const double after_s = (one.at - first.at).si();
    if (one.stretch && after_s > same_instant_s) {
      first.words += ", " + show_time(one.at - first.at) + " later " + one.words;
    } else if (one.stretch) {
      first.words += ", and at once " + one.words;
    }
    watch.follow(one.at, first);
  }
  return merged;
}

}  // namespace tideover::question
