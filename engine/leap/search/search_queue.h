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
// The same two, of another kind or at another key.
inline Entry entry_as(Entry e, EntryKind kind, double key) {
  e.kind = kind;
  e.key = key;
  return e;
}
struct Later {
  bool operator()(const Entry& l, const Entry& r) const {
    return l.key != r.key ? l.key > r.key : l.tie > r.tie;
  }
};

// A heap of four children to a node: half as deep as one of two, and a node's children lie side by
// side in memory, of which a search may hold hundreds of megabytes. No two entries are alike to
// Later, so they come in its order whatever the heap is.
class SearchQueue {
 public:
  bool empty() const { return heap_.empty(); }
  void push(Entry e) {
    constexpr std::uint64_t kNewest = (1ULL << 56) - 1;
    e.tie = (static_cast<std::uint64_t>(e.kind) << 56) | (kNewest - ++pushed_);
    heap_.push_back(e);
    std::size_t at = heap_.size() - 1;
    for (; at > 0 && Later{}(heap_[above(at)], e); at = above(at)) heap_[at] = heap_[above(at)];
    heap_[at] = e;
  }
  // Precondition: not empty.
  Entry pop() {
    const Entry first = heap_.front();
    const Entry last = heap_.back();
    heap_.pop_back();
    if (!heap_.empty()) sink(0, last);
    return first;
  }
  // Told of each entry taken that was of no more use: once they are many, all such are thrown out
  // at once. What is left comes in the order in which it would have.
  template <class Useless>
  void took_useless(const Useless& useless) {
    constexpr std::size_t kWorthIt = 4096;  // numeric
    if (++useless_ < kWorthIt || 4 * useless_ < heap_.size()) return;
    useless_ = 0;
    std::erase_if(heap_, useless);
    for (std::size_t k = heap_.size(); k-- > 0;) sink(k, Entry(heap_[k]));
  }

 private:
  static constexpr std::size_t kChildren = 4;  // layout
  static std::size_t above(std::size_t at) { return (at - 1) / kChildren; }

  // Puts an entry where the one at `at` was, or below it.
  void sink(std::size_t at, const Entry& e) {
    for (;;) {
      const std::size_t child = kChildren * at + 1;
      if (child >= heap_.size()) break;
      std::size_t soonest = child;
      const std::size_t end = std::min(heap_.size(), child + kChildren);
      for (std::size_t k = child + 1; k < end; ++k)
        if (Later{}(heap_[soonest], heap_[k])) soonest = k;
      if (!Later{}(e, heap_[soonest])) break;
      heap_[at] = heap_[soonest];
      at = soonest;
    }
    heap_[at] = e;
  }

  std::vector<Entry> heap_;
  std::uint64_t pushed_ = 0;
  std::size_t useless_ = 0;
};

}  // namespace hummock::leap
