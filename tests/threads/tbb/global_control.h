// Stands in for oneTBB's header of this name in the build for the thread sanitizer: see
// parallel_for.h.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>

namespace tbb {

/// The least of what all that live allow is not kept: the newest counts, and the one before it
/// again when it goes. So does every use of it here, one inside the other.
class global_control {
 public:
  enum parameter { max_allowed_parallelism };

  global_control(parameter, std::size_t threads) : before_(allowed().exchange(threads)) {}
  ~global_control() { allowed() = before_; }
  global_control(const global_control&) = delete;
  global_control& operator=(const global_control&) = delete;

  /// Threads that parallel_for may use: more than these machines have, so that more can go wrong.
  static std::atomic<std::size_t>& allowed() {
    static std::atomic<std::size_t> threads{4};
    return threads;
  }

 private:
  std::size_t before_;
};

}  // namespace tbb
