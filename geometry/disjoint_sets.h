// Union-find: sets of numbers 0 … n−1 that are joined and asked for (Tarjan 1975, path halving).
//
// The smaller root stays, so that the answer does not depend on the order within a pair.
#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace hummock::geom {

class DisjointSets {
 public:
  explicit DisjointSets(std::size_t n) : parent_(n) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  void add() { parent_.push_back(parent_.size()); }  // one more set, of one number
  std::size_t size() const { return parent_.size(); }
  // Precondition: a < size().
  std::size_t root(std::size_t a) {
    while (parent_[a] != a) a = parent_[a] = parent_[parent_[a]];
    return a;
  }
  void join(std::size_t a, std::size_t b) {
    const std::size_t ra = root(a), rb = root(b);
    parent_[std::max(ra, rb)] = std::min(ra, rb);
  }

 private:
  std::vector<std::size_t> parent_;
};

}  // namespace hummock::geom
