// Tiles shared out over the threads, a batch at a time so that the caller's thread can report.
#pragma once

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "engine/base/progress.h"

namespace hummock::shade {

// Calls work(k) for k = 0..count−1, each k writing only what is its own. Progress goes from `from`
// to `to`. Throws Cancelled between batches.
template <class Work>
void over_tiles(std::size_t count, const Progress& progress, std::string_view stage, double from,
                double to, const Work& work, std::size_t batch = 64) {
  for (std::size_t first = 0; first < count; first += batch) {
    progress.step(stage,
                  from + (to - from) * static_cast<double>(first) / static_cast<double>(count));
    const std::size_t last = std::min(count, first + batch);
    tbb::parallel_for(first, last, [&](std::size_t k) { work(k); });
  }
  progress.step(stage, to);
}

}  // namespace hummock::shade
