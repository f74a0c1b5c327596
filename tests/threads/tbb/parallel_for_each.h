// Stands in for oneTBB's header of this name, as parallel_for.h beside it says.
#pragma once

#include <cstddef>
#include <iterator>

#include "tests/threads/tbb/parallel_for.h"

namespace tbb {

/// Runs body(element) for each element of a container.
template <class Container, class Body>
void parallel_for_each(Container& all, const Body& body) {
  const auto first = std::begin(all);
  parallel_for(std::size_t{0}, static_cast<std::size_t>(std::size(all)),
               [&](std::size_t k) { body(*std::next(first, static_cast<std::ptrdiff_t>(k))); });
}

}  // namespace tbb
