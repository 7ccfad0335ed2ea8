#include "run/batch.hpp"

#include <algorithm>

namespace tideover::run {

unsigned threads_for(const BatchSettings& settings, std::size_t count) {
  const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
  const unsigned wanted = settings.threads == 0 ? cores : settings.threads;
  return static_cast<unsigned>(std::clamp<std::size_t>(wanted, 1, std::max<std::size_t>(count, 1)));
}

}  // namespace tideover::run
