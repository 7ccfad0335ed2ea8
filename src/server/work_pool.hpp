/// Threads that do work in the order it was given.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace tideover::server {

class WorkPool {
 public:
  explicit WorkPool(std::size_t threads);
  /// Drops what was not begun and waits for what was.
  ~WorkPool();
  WorkPool(const WorkPool&) = delete;
  WorkPool& operator=(const WorkPool&) = delete;

  /// `work` must not throw.
  void add(std::function<void()> work);

 private:
  void take_turns();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<std::function<void()>> waiting_;
  bool ends_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace tideover::server
