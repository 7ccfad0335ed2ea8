#include "cell/steps.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "cell/step_models.hpp"

namespace tideover::cell {
namespace {

// A piece of a run under current stands by itself from this share of the run on, or this long.
constexpr double standing_share = 0.1;
constexpr double standing_s = 60.0;
constexpr std::size_t standing_samples = 5;
// What stands must make up most of a run, or the whole of it varies.
constexpr double constant_share = 0.6;
// A current that drifts goes through many levels without an edge between them.
constexpr std::size_t levels_of_a_drift = 4;
// Three of a meter's last digits.
constexpr double least_scatter_v = 0.0003;
// A current below this share of what it just was has dropped.
constexpr double sudden_share = 0.3;
// So many steps on end, each shorter than this: a varying load.
constexpr std::size_t crowd = 8;
constexpr double crowded_s = 60.0;
// A current that crosses zero for a sample or two does not rest.
constexpr double blink_s = 2.0;
// The longest pulse, and how long the rests beside it last at least.
constexpr double pulse_s = 120.0;
constexpr double least_rest_share = 0.5;

struct Piece {
  Step::Kind kind = Step::Kind::Varying;
  std::size_t first = 0;
  std::size_t end = 0;
};

class StepFinder {
 public:
  explicit StepFinder(const Log& log) : log_(log), tolerance_(tolerance_of(log)) {}

  void find_in(std::size_t section);
  [[nodiscard]] std::vector<Step> take() { return std::move(steps_); }

 private:
  [[nodiscard]] int direction_at(std::size_t k) const;
  void split_run(std::size_t first, std::size_t end);
  [[nodiscard]] bool is_drift(std::span<const Piece> pieces) const;
  void widen_held_voltage(std::vector<Piece>& pieces) const;
  void extend_held_voltage();
  [[nodiscard]] bool is_dropout(const Piece& before, const Piece& rest, const Piece& behind) const;
  void join_crowds();
  void join_scraps();
  void name_pulses();
  void add_piece(const Piece& piece);
  [[nodiscard]] double time_before_s(std::size_t k) const;
  [[nodiscard]] double lasts_s(const Piece& piece) const;
  [[nodiscard]] std::size_t boundary(const Piece& piece) const;
  void measure(std::size_t section);

  const Log& log_;
  StepTolerance tolerance_;
  std::size_t begin_ = 0;  ///< of the section
  std::size_t end_ = 0;
  std::vector<Piece> pieces_;
  std::vector<Step> steps_;
};

int StepFinder::direction_at(std::size_t k) const {
  if (std::abs(log_.current_a[k]) <= tolerance_.rest_a) return 0;
  return log_.current_a[k] > 0.0 ? 1 : -1;
}

double StepFinder::time_before_s(std::size_t k) const {
  return log_.time_s[k > begin_ ? k - 1 : k];
}

double StepFinder::lasts_s(const Piece& piece) const {
  return log_.time_s[piece.end - 1] - time_before_s(piece.first);
}

/// Pieces of one kind that touch become one, but constant levels stay apart.
void StepFinder::add_piece(const Piece& piece) {
  const bool joins = !pieces_.empty() && pieces_.back().kind == piece.kind &&
                     (piece.kind == Step::Kind::Varying || piece.kind == Step::Kind::Rest);
  if (joins) {
    pieces_.back().end = piece.end;
  } else {
    pieces_.push_back(piece);
  }
}

/// Levels of a current that changes slowly: a resistor, a fading lamp.
bool StepFinder::is_drift(std::span<const Piece> pieces) const {
  std::size_t smooth = 0;
  for (std::size_t p = 1; p < pieces.size(); ++p) {
    const std::size_t k = pieces[p].first;
    const double edge_a = std::abs(log_.current_a[k] - log_.current_a[k - 1]);
    const double level_a = std::abs(log_.current_a[k]);
    if (edge_a < 3.0 * std::max(tolerance_.floor_a, tolerance_.share * level_a) &&
        pieces[p].kind == Step::Kind::ConstantCurrent)
      ++smooth;
  }
  return smooth >= levels_of_a_drift;
}

/// The first samples at a held voltage still have nearly the full current: they belong to it as far
/// as their voltage scatters no more than that of the others.
void StepFinder::widen_held_voltage(std::vector<Piece>& pieces) const {
  for (std::size_t p = 1; p < pieces.size(); ++p) {
    if (pieces[p].kind != Step::Kind::ConstantVoltage) continue;
    const auto count = static_cast<double>(pieces[p].end - pieces[p].first);
    double held_v = 0.0;
    double square = 0.0;
    for (std::size_t k = pieces[p].first; k < pieces[p].end; ++k)
      held_v += log_.voltage_v[k] / count;
    for (std::size_t k = pieces[p].first; k < pieces[p].end; ++k)
      square += (log_.voltage_v[k] - held_v) * (log_.voltage_v[k] - held_v) / count;
    const double scatter_v = std::max(least_scatter_v, 2.0 * std::sqrt(square));
    const auto is_held = [&](std::size_t k) {
      return std::abs(log_.voltage_v[k] - held_v) <= scatter_v;
    };
    while (pieces[p - 1].end > pieces[p - 1].first + 1 && is_held(pieces[p - 1].end - 1)) {
      --pieces[p - 1].end;
      --pieces[p].first;
    }
  }
}

/// Samples with current of one direction.
void StepFinder::split_run(std::size_t first, std::size_t end) {
  std::vector<Piece> pieces;
  for (std::size_t at = first; at < end;) {
    const Fit fit = longest_fit(log_, tolerance_, at, end);
    pieces.push_back({fit.kind, at, fit.end});
    at = fit.end;
  }
  if (pieces.size() > 1) widen_held_voltage(pieces);
  const double run_s = lasts_s({Step::Kind::Varying, first, end});
  double standing = 0.0;
  for (Piece& piece : pieces) {
    const double piece_s = lasts_s(piece);
    const bool stands = pieces.size() == 1 || piece_s >= standing_share * run_s ||
                        (piece_s >= standing_s && piece.end - piece.first >= standing_samples);
    if (stands) standing += piece_s;
    if (!stands) piece.kind = Step::Kind::Varying;
  }
  const bool varies = standing < constant_share * run_s || is_drift(pieces);
  if (varies) pieces = {{Step::Kind::Varying, first, end}};
  for (const Piece& piece : pieces) add_piece(piece);
}

/// A held voltage lasts as long as the current fades: it ends where the current drops at once, not
/// where it has become too small to tell from rest.
void StepFinder::extend_held_voltage() {
  for (std::size_t p = 0; p + 1 < pieces_.size(); ++p) {
    if (pieces_[p].kind != Step::Kind::ConstantVoltage) continue;
    Piece& held = pieces_[p];
    const double held_v = log_.voltage_v[held.end - 1];
    double fading_a = log_.current_a[held.end - 1];
    std::size_t k = held.end;
    for (; k < end_; ++k) {
      const double here_a = log_.current_a[k];
      if (here_a <= sudden_share * fading_a || here_a > fading_a / sudden_share ||
          std::abs(log_.voltage_v[k] - held_v) > tolerance_.hold_v)
        break;
      fading_a += 0.2 * (here_a - fading_a);
    }
    held.end = k;
    while (p + 1 < pieces_.size() && pieces_[p + 1].end <= k)
      pieces_.erase(pieces_.begin() + static_cast<std::ptrdiff_t>(p) + 1);
    if (p + 1 < pieces_.size()) pieces_[p + 1].first = std::max(pieces_[p + 1].first, k);
  }
}

/// Many short steps on end are one varying load, and short ones beside what varies belong to it.
/// A rest at either end of such a crowd stands by itself.
void StepFinder::join_crowds() {
  std::vector<Piece> joined;
  joined.reserve(pieces_.size());
  const auto is_crowded = [this](const Piece& piece) {
    return piece.kind == Step::Kind::Varying || lasts_s(piece) < crowded_s;
  };
  for (std::size_t p = 0; p < pieces_.size();) {
    std::size_t q = p;
    bool varies = false;
    while (q < pieces_.size() && is_crowded(pieces_[q])) {
      varies = varies || pieces_[q].kind == Step::Kind::Varying;
      ++q;
    }
    varies = varies || q - p >= crowd;
    std::size_t last = q;
    while (varies && p < last && pieces_[p].kind == Step::Kind::Rest)
      joined.push_back(pieces_[p++]);
    while (varies && last > p && pieces_[last - 1].kind == Step::Kind::Rest) --last;
    if (varies && p < last) {
      joined.push_back({Step::Kind::Varying, pieces_[p].first, pieces_[last - 1].end});
      p = last;
    }
    const std::size_t stop = std::min(std::max(q, p + 1), pieces_.size());
    for (; p < stop; ++p) joined.push_back(pieces_[p]);
  }
  pieces_ = std::move(joined);
}

bool StepFinder::is_dropout(const Piece& before, const Piece& rest, const Piece& behind) const {
  if (rest.kind != Step::Kind::Rest || rest.end - rest.first > 2) return false;
  if (before.kind != behind.kind || before.kind != Step::Kind::ConstantCurrent) return false;
  const double before_a = log_.current_a[before.first + (before.end - before.first) / 2];
  const double behind_a = log_.current_a[behind.first + (behind.end - behind.first) / 2];
  const double slack_a = std::max(tolerance_.floor_a, tolerance_.share * std::abs(before_a));
  return before_a * behind_a > 0.0 && std::abs(before_a - behind_a) < 3.0 * slack_a;
}

/// A lone stray sample within a rest, or a ramp of a sample or two before a constant current.
void StepFinder::join_scraps() {
  std::vector<Piece> joined;
  joined.reserve(pieces_.size());
  for (std::size_t p = 0; p < pieces_.size(); ++p) {
    Piece piece = pieces_[p];
    const bool rests = !joined.empty() && joined.back().kind == Step::Kind::Rest;
    const bool is_flicker = p + 1 < pieces_.size() && piece.end - piece.first <= 2 &&
                            std::abs(log_.current_a[piece.first]) < 3.0 * tolerance_.rest_a;
    if (rests && (is_flicker || piece.kind == Step::Kind::Rest)) {
      joined.back().end = piece.end;
      continue;
    }
    // The same current on both sides of a sample or two without: noise around a small current.
    if (p + 1 < pieces_.size() && !joined.empty() &&
        is_dropout(joined.back(), piece, pieces_[p + 1])) {
      joined.back().end = pieces_[++p].end;
      continue;
    }
    const bool is_blink = piece.kind == Step::Kind::Rest && piece.end - piece.first <= 2 &&
                          lasts_s(piece) < blink_s && p > 0 && p + 1 < pieces_.size();
    if (is_blink) {
      pieces_[p + 1].first = piece.first;
      continue;
    }
    const bool is_scrap = piece.kind == Step::Kind::Varying && piece.end - piece.first <= 2 &&
                          p + 1 < pieces_.size() &&
                          direction_at(pieces_[p + 1].first) == direction_at(piece.first);
    if (is_scrap) {
      pieces_[p + 1].first = piece.first;
      continue;
    }
    const bool is_tail = piece.kind == Step::Kind::Varying && piece.end - piece.first <= 2 &&
                         !joined.empty() && joined.back().kind != Step::Kind::Rest &&
                         direction_at(joined.back().first) == direction_at(piece.first);
    if (is_tail) {
      joined.back().end = piece.end;
    } else {
      joined.push_back(piece);
    }
  }
  pieces_ = std::move(joined);
}

void StepFinder::name_pulses() {
  for (std::size_t p = 1; p + 1 < pieces_.size(); ++p) {
    const Piece& before = pieces_[p - 1];
    const Piece& behind = pieces_[p + 1];
    const double piece_s = lasts_s(pieces_[p]);
    if (pieces_[p].kind == Step::Kind::ConstantCurrent && piece_s <= pulse_s &&
        before.kind == Step::Kind::Rest && behind.kind == Step::Kind::Rest &&
        lasts_s(before) >= least_rest_share * piece_s &&
        lasts_s(behind) >= least_rest_share * piece_s)
      pieces_[p].kind = Step::Kind::Pulse;
  }
}

/// The sample at whose time a piece begins.
std::size_t StepFinder::boundary(const Piece& piece) const {
  if (piece.first == begin_) return begin_;
  const bool is_rest_behind_ramp =
      piece.kind == Step::Kind::Rest && log_.current_between == Between::Straight;
  return is_rest_behind_ramp ? piece.first : piece.first - 1;
}

void StepFinder::measure(std::size_t section) {
  for (std::size_t p = 0; p < pieces_.size(); ++p) {
    const Piece& piece = pieces_[p];
    const std::size_t begin = boundary(piece);
    const std::size_t last = p + 1 < pieces_.size() ? boundary(pieces_[p + 1]) : end_ - 1;
    Step step{.kind = piece.kind, .section = section, .first = piece.first, .end = piece.end};
    step.begin_s = log_.time_s[begin];
    step.end_s = log_.time_s[last];
    double volt_seconds = 0.0;
    double degree_seconds = 0.0;
    for (std::size_t k = begin + 1; k <= last; ++k) {
      const double dt_s = log_.time_s[k] - log_.time_s[k - 1];
      const double current_a = mean_current_a(log_, k);
      // Behind an edge the voltage is the later sample's, as the current is.
      const bool is_edge = k == piece.first;
      const double voltage_v =
          is_edge ? log_.voltage_v[k] : 0.5 * (log_.voltage_v[k] + log_.voltage_v[k - 1]);
      step.charge_as += current_a * dt_s;
      step.energy_j += current_a * voltage_v * dt_s;
      volt_seconds += voltage_v * dt_s;
      if (!log_.temperature_c.empty()) degree_seconds += log_.temperature_c[k] * dt_s;
    }
    const double lasts_s = step.lasts_s();
    step.start_v = log_.voltage_v[piece.first];
    step.end_v = log_.voltage_v[piece.end - 1];
    step.before_v = log_.voltage_v[piece.first > begin_ ? piece.first - 1 : piece.first];
    step.start_current_a = log_.current_a[piece.first];
    step.end_current_a = log_.current_a[piece.end - 1];
    const bool is_moment = lasts_s <= 0.0;
    step.mean_current_a = is_moment ? step.start_current_a : step.charge_as / lasts_s;
    step.mean_voltage_v = is_moment ? step.start_v : volt_seconds / lasts_s;
    step.mean_power_w = is_moment ? step.start_current_a * step.start_v : step.energy_j / lasts_s;
    if (!log_.temperature_c.empty())
      step.mean_temperature_c =
          is_moment ? log_.temperature_c[piece.first] : degree_seconds / lasts_s;
    steps_.push_back(step);
  }
}

void StepFinder::find_in(std::size_t section) {
  begin_ = log_.sections[section].first;
  end_ = log_.sections[section].end;
  pieces_.clear();
  for (std::size_t at = begin_; at < end_;) {
    const int direction = direction_at(at);
    std::size_t stop = at + 1;
    while (stop < end_ && direction_at(stop) == direction) ++stop;
    if (direction == 0) {
      add_piece({Step::Kind::Rest, at, stop});
    } else {
      split_run(at, stop);
    }
    at = stop;
  }
  extend_held_voltage();
  join_scraps();
  join_crowds();
  name_pulses();
  measure(section);
}

}  // namespace

std::vector<Step> find_steps(const Log& log) {
  StepFinder finder(log);
  for (std::size_t section = 0; section < log.sections.size(); ++section) finder.find_in(section);
  return finder.take();
}

}  // namespace tideover::cell
