/// Many short works on variations of one build, spread over the cores, their results handed over in
/// order: whatever is made of them does not depend on how many cores there were.
#pragma once

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "base/progress.hpp"
#include "build/variation.hpp"

namespace tideover::run {

/// Asks the workers to stop; a work passes it on to its runs.
class StopFlag final : public base::Progress {
 public:
  void report(double share, std::string_view) override { static_cast<void>(share); }
  [[nodiscard]] bool stop_asked() const override { return stop_.load(std::memory_order_relaxed); }
  void raise() { stop_.store(true, std::memory_order_relaxed); }

 private:
  std::atomic<bool> stop_ = false;
};

struct BatchSettings {
  unsigned threads = 0;                      ///< 0: one a core
  std::string doing = "running variations";  ///< for the progress
};

/// How many threads a batch of `count` works is given.
[[nodiscard]] unsigned threads_for(const BatchSettings& settings, std::size_t count);

template <class Result>
class Batch {
 public:
  /// `work` is called on any thread, with that thread's own workpiece; it varies it itself and must
  /// leave nothing behind but its result. It depends on nothing but its number.
  using Work =
      std::function<Result(build::Workpiece& piece, std::size_t number, base::Progress& stop)>;
  /// Called on the calling thread for number 0, 1, 2, ...; false: no more are wanted.
  using Take = std::function<bool(std::size_t number, Result&& result)>;

  Batch(const build::Build& build, std::size_t count, Work work, BatchSettings settings = {})
      : build_(build),
        count_(count),
        settings_(std::move(settings)),
        threads_(threads_for(settings_, count)),
        work_(std::move(work)) {}

  /// How many results were taken: all, or those before `take` or the user said stop. An exception
  /// of a work is thrown here.
  std::size_t run(const Take& take, base::Progress& progress) {
    const std::size_t taken = take_all(take, progress);
    if (fault_) std::rethrow_exception(fault_);
    return taken;
  }

 private:
  /// Its end tells the workers, whatever happened; theirs is waited for after it.
  class Ending {
   public:
    explicit Ending(Batch& batch) : batch_(batch) {}
    Ending(const Ending&) = delete;
    Ending& operator=(const Ending&) = delete;
    ~Ending() { batch_.end(); }

   private:
    Batch& batch_;
  };

  std::size_t take_all(const Take& take, base::Progress& progress) {
    std::vector<std::jthread> workers;
    for (unsigned k = 0; k < threads_; ++k) workers.emplace_back([this] { keep_working(); });
    const Ending ending(*this);
    std::size_t taken = 0;
    bool goes_on = true;
    while (goes_on && taken < count_ && !flag_.stop_asked() && !progress.stop_asked()) {
      if (auto result = wait_for(taken)) goes_on = take(taken++, std::move(*result));
      progress.report(static_cast<double>(taken) / static_cast<double>(count_), settings_.doing);
    }
    return taken;
  }

  /// How far ahead of what has been taken the workers go: results waiting stay few.
  [[nodiscard]] std::size_t horizon() const { return taken_ + std::size_t{8} * threads_; }

  void keep_working() {
    build::Workpiece piece(build_);
    for (;;) {
      std::unique_lock lock(mutex_);
      room_.wait(lock, [&] { return flag_.stop_asked() || next_ >= count_ || next_ < horizon(); });
      if (flag_.stop_asked() || next_ >= count_) return;
      const std::size_t number = next_++;
      lock.unlock();
      do_one(piece, number);
    }
  }

  void do_one(build::Workpiece& piece, std::size_t number) {
    try {
      Result result = work_(piece, number, flag_);
      const std::scoped_lock lock(mutex_);
      if (!flag_.stop_asked()) ready_.emplace(number, std::move(result));
    } catch (...) {
      const std::scoped_lock lock(mutex_);
      if (!fault_) fault_ = std::current_exception();
      flag_.raise();
    }
    done_.notify_one();
    room_.notify_all();
  }

  /// Nothing within a beat, so that the user is heard.
  std::optional<Result> wait_for(std::size_t number) {
    constexpr std::chrono::milliseconds beat(40);
    std::unique_lock lock(mutex_);
    done_.wait_for(lock, beat, [&] { return fault_ || ready_.contains(number); });
    const auto at = ready_.find(number);
    if (at == ready_.end()) return std::nullopt;
    std::optional<Result> result(std::move(at->second));
    ready_.erase(at);
    taken_ = number + 1;
    lock.unlock();
    room_.notify_all();
    return result;
  }

  /// Under the lock, so that no worker misses it between looking and waiting.
  void end() {
    const std::scoped_lock lock(mutex_);
    flag_.raise();
    room_.notify_all();
  }

  const build::Build& build_;
  std::size_t count_;
  BatchSettings settings_;
  unsigned threads_;
  Work work_;
  StopFlag flag_;
  std::mutex mutex_;
  std::condition_variable room_;
  std::condition_variable done_;
  std::map<std::size_t, Result> ready_;
  std::size_t next_ = 0;
  std::size_t taken_ = 0;
  std::exception_ptr fault_;
};

}  // namespace tideover::run
