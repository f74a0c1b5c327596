// Stands in for oneTBB's header of this name in the build for the thread sanitizer (CMakeLists.txt
// puts this folder first). Debian's TBB is not built with it, so the sanitizer does not see TBB
// hand work over and reports every loop. Here each loop runs on threads of the standard library,
// which it knows: what it then reports is ours. A loop's turns are shared out one by one, so that
// neighbours meet in as many ways as there are; and a loop inside a loop starts threads of its own.
#pragma once

#include <tbb/partitioner.h>

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "tests/threads/tbb/blocked_range.h"
#include "tests/threads/tbb/global_control.h"

namespace tbb {

/// Runs body(i) for each i of [first, last). The first exception ends the loop and is thrown here.
template <class Index, class Body>
void parallel_for(Index first, Index last, const Body& body) {
  if (!(first < last)) return;
  const auto count = static_cast<std::size_t>(last - first);
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex failing;
  const auto work = [&] {
    for (std::size_t k = next++; k < count; k = next++) {
      try {
        body(static_cast<Index>(first + static_cast<Index>(k)));
      } catch (...) {
        const std::lock_guard lock(failing);
        if (!failure) failure = std::current_exception();
        next = count;
      }
    }
  };
  std::vector<std::thread> others;
  for (std::size_t t = 1; t < std::min(count, global_control::allowed().load()); ++t)
    others.emplace_back(work);
  work();
  for (std::thread& t : others) t.join();
  if (failure) std::rethrow_exception(failure);
}

/// Runs body(part) for parts of at most the grain that together are the range.
template <class Index, class Body>
void parallel_for(const blocked_range<Index>& range, const Body& body) {
  const std::size_t grain = std::max<std::size_t>(1, range.grainsize());
  const auto count = static_cast<std::size_t>(range.end() - range.begin());
  parallel_for(std::size_t{0}, (count + grain - 1) / grain, [&](std::size_t k) {
    const auto from = static_cast<Index>(range.begin() + static_cast<Index>(k * grain));
    body(blocked_range<Index>(
        from, std::min(range.end(), static_cast<Index>(from + static_cast<Index>(grain)))));
  });
}

/// How a loop is shared out is TBB's matter: here each turn goes by itself in any case.
template <class Range, class Body>
void parallel_for(const Range& range, const Body& body, const simple_partitioner&) {
  parallel_for(range, body);
}
template <class Index, class Body>
void parallel_for(Index first, Index last, const Body& body, const simple_partitioner&) {
  parallel_for(first, last, body);
}

}  // namespace tbb
