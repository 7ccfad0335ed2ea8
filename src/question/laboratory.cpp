#include "question/laboratory.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <exception>
#include <memory>
#include <thread>

#include "question/thinning.hpp"

namespace tideover::question {

namespace {

run::Record not_begun(const std::string& timeline) {
  run::Record none;
  none.timeline = timeline;
  none.is_partial = true;
  return none;
}

constexpr unsigned most_threads = 2;
/// How often the user hears of it and is heard.
constexpr std::chrono::milliseconds beat(40);

/// What one run tells of itself to whoever waits for all of them. A run tells its share stretch by
/// stretch; one that falls back has begun the next.
class Share final : public base::Progress {
 public:
  Share(const std::atomic<bool>& stop, const build::Timeline& timeline)
      : stop_(stop),
        stretches_(std::max<double>(
            1.0, static_cast<double>(timeline.stretches.size()) * timeline.repeats)) {}
  void report(double share, std::string_view) override {
    const double of_stretch = std::clamp(share, 0.0, 1.0);
    if (of_stretch < of_stretch_) before_ += 1.0;
    of_stretch_ = of_stretch;
    const double whole = std::min(1.0, (before_ + of_stretch) / stretches_);
    if (whole > share_.load(std::memory_order_relaxed)) {
      share_.store(whole, std::memory_order_relaxed);
    }
  }
  void end() { share_.store(1.0, std::memory_order_relaxed); }
  [[nodiscard]] bool stop_asked() const override { return stop_.load(std::memory_order_relaxed); }
  [[nodiscard]] double share() const { return share_.load(std::memory_order_relaxed); }

 private:
  const std::atomic<bool>& stop_;
  double stretches_;
  double before_ = 0.0;      ///< stretches that have ended
  double of_stretch_ = 0.0;  ///< reported last
  std::atomic<double> share_ = 0.0;
};

class Bench {
 public:
  Bench(const std::vector<Experiment>& experiments, const run::Settings& settings)
      : experiments_(experiments),
        settings_(settings),
        records_(experiments.size()),
        faults_(experiments.size()) {
    for (const Experiment& one : experiments) {
      shares_.push_back(std::make_unique<Share>(stop_, one.timeline));
      all_ += one.effort;
    }
  }

  std::vector<run::Record> work(base::Progress& progress) {
    const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
    const auto count = std::min<std::size_t>(std::min(cores, most_threads), experiments_.size());
    std::vector<std::thread> threads;
    for (std::size_t k = 0; k < count; ++k) threads.emplace_back([this] { take_turns(); });
    while (done_ < experiments_.size()) {
      report(progress);
      std::this_thread::sleep_for(beat);
    }
    for (std::thread& thread : threads) thread.join();
    for (const std::exception_ptr& fault : faults_) {
      if (fault) std::rethrow_exception(fault);
    }
    return std::move(records_);
  }

 private:
  void take_turns() {
    for (std::size_t k = next_++; k < experiments_.size(); k = next_++) {
      try {
        records_[k] = carry_out_one(experiments_[k], *shares_[k]);
      } catch (...) {
        faults_[k] = std::current_exception();
        stop_ = true;
      }
      shares_[k]->end();
      ++done_;
    }
  }

  run::Record carry_out_one(const Experiment& one, Share& share) const {
    if (stop_) return not_begun(one.timeline.name);
    run::Record record =
        what_was_begun(run::run(*one.build, one.timeline, one.circumstances, settings_, share));
    if (one.most_rows > 0) thin(record, one.most_rows);
    return record;
  }

  void report(base::Progress& progress) {
    double done = 0.0;
    const std::string* doing = nullptr;
    for (std::size_t k = 0; k < experiments_.size(); ++k) {
      const double share = shares_[k]->share();
      done += experiments_[k].effort * share;
      if (share < 1.0 && doing == nullptr) doing = &experiments_[k].doing;
    }
    progress.report(done / all_, doing == nullptr ? std::string_view() : *doing);
    if (progress.stop_asked()) stop_ = true;
  }

  const std::vector<Experiment>& experiments_;
  const run::Settings& settings_;
  std::vector<std::unique_ptr<Share>> shares_;
  std::vector<run::Record> records_;
  std::vector<std::exception_ptr> faults_;
  double all_ = 0.0;
  std::atomic<std::size_t> next_ = 0;
  std::atomic<std::size_t> done_ = 0;
  std::atomic<bool> stop_ = false;
};

}  // namespace

run::Record what_was_begun(run::Record record) {
  return record.is_partial && record.stretches.empty() ? not_begun(record.timeline) : record;
}

std::vector<run::Record> carry_out(const std::vector<Experiment>& experiments,
                                   const run::Settings& settings, base::Progress& progress) {
  if (experiments.empty()) return {};
  return Bench(experiments, settings).work(progress);
}

}  // namespace tideover::question
