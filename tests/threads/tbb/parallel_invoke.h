// Stands in for oneTBB's header of this name, as parallel_for.h beside it says.
#pragma once

#include <array>
#include <cstddef>
#include <functional>

#include "tests/threads/tbb/parallel_for.h"

namespace tbb {

/// Runs all of them; the first exception is thrown here.
template <class... Work>
void parallel_invoke(const Work&... work) {
  const std::array<std::function<void()>, sizeof...(Work)> all{std::function<void()>(work)...};
  parallel_for(std::size_t{0}, all.size(), [&](std::size_t k) { all[k](); });
}

}  // namespace tbb
