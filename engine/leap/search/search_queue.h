// The queue of the search (minimax.h): smallest key first, of equal keys kind by kind and the
// newest first.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "engine/leap/search/links.h"

namespace hummock::leap {

enum class EntryKind : std::uint8_t {
  found = 0,
  reach = 1,
  rung = 2,
  pieces = 3,
  nodes = 4,
  upper = 5
};

struct Entry {
  double key = 0.0;
  std::uint64_t tie = 0;      // smaller first
  int pa = -1, a = -1;        // patch and its node or spot; found: a is the link's number
  int pb = -1, b = -1;        // patch and its node or spot; upper: b is a node of the patch tree
  float share = 0.5F;         // rung: where the one before was blocked
  std::int16_t k = 0;         // rung to try
  Side side = Side::steeper;  // rung
  EntryKind kind = EntryKind::upper;
};
struct Later {
  bool operator()(const Entry& l, const Entry& r) const {
    return l.key != r.key ? l.key > r.key : l.tie > r.tie;
  }
};

// Entries wait in buckets by their key, unsorted, of which only the first in use is a heap: small
// enough for the nearest caches, where one heap of all would be gone through from end to end. The
// bucket rises with the key, so they come in the order of Later whatever the buckets are.
class SearchQueue {
 public:
  bool empty() const { return count_ == 0; }
  void push(Entry e) {
    constexpr std::uint64_t kNewest = (1ULL << 56) - 1;
    e.tie = (static_cast<std::uint64_t>(e.kind) << 56) | (kNewest - ++pushed_);
    const std::size_t bucket = std::max(first_, bucket_of(e.key));
    if (bucket >= buckets_.size()) buckets_.resize(bucket + 1);
    buckets_[bucket].push_back(e);
    if (bucket == first_) std::push_heap(heap().begin(), heap().end(), Later{});
    ++count_;
  }
  // Precondition: not empty.
  Entry pop() {
    while (heap().empty()) {
      heap() = {};  // gives its room back
      ++first_;
      std::make_heap(heap().begin(), heap().end(), Later{});
    }
    std::pop_heap(heap().begin(), heap().end(), Later{});
    const Entry e = heap().back();
    heap().pop_back();
    --count_;
    return e;
  }
  // Told of each entry taken that was of no more use: once they are many, all such are thrown out
  // at once. What is left comes in the order in which it would have.
  template <class Useless>
  void took_useless(const Useless& useless) {
    constexpr std::size_t kWorthIt = 4096;  // numeric
    if (++useless_ < kWorthIt || 4 * useless_ < count_) return;
    useless_ = 0;
    count_ = 0;
    for (std::vector<Entry>& bucket : buckets_) {
      std::erase_if(bucket, useless);
      count_ += bucket.size();
    }
    std::make_heap(heap().begin(), heap().end(), Later{});
  }

 private:
  static std::size_t bucket_of(double key) {
    constexpr double kPerMetre = 1024.0, kMost = 65535.0;  // numeric: no order hangs on them
    return static_cast<std::size_t>(std::clamp(key * kPerMetre, 0.0, kMost));
  }
  std::vector<Entry>& heap() { return buckets_[first_]; }

  std::vector<std::vector<Entry>> buckets_ = std::vector<std::vector<Entry>>(1);
  std::size_t first_ = 0;  // the bucket that is a heap; those before it are empty
  std::size_t count_ = 0;  // entries in all
  std::uint64_t pushed_ = 0;
  std::size_t useless_ = 0;
};

}  // namespace hummock::leap
