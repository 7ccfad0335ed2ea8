#include "server/work_pool.hpp"

#include <utility>

namespace tideover::server {

WorkPool::WorkPool(std::size_t threads) {
  threads_.reserve(threads);
  for (std::size_t k = 0; k < threads; ++k) threads_.emplace_back([this] { take_turns(); });
}

WorkPool::~WorkPool() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
    waiting_.clear();
  }
  changed_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

void WorkPool::add(std::function<void()> work) {
  {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(work));
  }
  changed_.notify_one();
}

void WorkPool::take_turns() {
  while (true) {
    std::function<void()> work;
    {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [this] { return ends_ || !waiting_.empty(); });
      if (ends_) return;
      work = std::move(waiting_.front());
      waiting_.pop_front();
    }
    work();
  }
}

}  // namespace tideover::server
