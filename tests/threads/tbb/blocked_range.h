// Stands in for oneTBB's header of this name in the build for the thread sanitizer: see
// parallel_for.h.
#pragma once

#include <cstddef>

namespace tbb {

template <class Index>
class blocked_range {
 public:
  blocked_range(Index begin, Index end, std::size_t grain = 1)
      : begin_(begin), end_(end), grain_(grain) {}
  Index begin() const { return begin_; }
  Index end() const { return end_; }
  std::size_t grainsize() const { return grain_; }

 private:
  Index begin_, end_;
  std::size_t grain_;
};

}  // namespace tbb
