// The queue of the search against one sorted list of all that waits in it.
#include "engine/leap/search/search_queue.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace hummock::leap {
namespace {

// Smallest key first, then by kind, then the newest.
bool sooner(const Entry& a, const Entry& b) {
  if (a.key != b.key) return a.key < b.key;
  return a.kind != b.kind ? a.kind < b.kind : a.a > b.a;
}

// Keys that mostly rise, as in a search, with many alike and some that fall back.
TEST(SearchQueue, ComesInTheOrderOfASortedList) {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    std::mt19937 random(seed);
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    SearchQueue queue;
    std::vector<Entry> list;  // the soonest last
    double now = 0.0;
    int pushed = 0, thrown_out = 0;
    for (int step = 0; step < 30000; ++step) {
      if (list.empty() || below(100) < (step < 20000 ? 60 : 20)) {
        Entry e;
        e.key = std::max(0.0, now + 0.0004 * (below(9) == 0 ? -below(300) : below(3000)));
        e.kind = static_cast<EntryKind>(below(6));
        e.a = ++pushed;
        e.b = below(8);
        queue.push(e);
        list.insert(std::lower_bound(list.begin(), list.end(), e,
                                     [](const Entry& l, const Entry& r) { return sooner(r, l); }),
                    e);
        continue;
      }
      ASSERT_FALSE(queue.empty());
      const Entry e = queue.pop();
      ASSERT_EQ(e.a, list.back().a) << "seed " << seed << " step " << step;
      ASSERT_EQ(e.key, list.back().key);
      list.pop_back();
      now = e.key;
      if (step < 8000) continue;
      // Those of no use are in no hurry to go, but once they do all go.
      bool all_went = false;
      queue.took_useless([&](const Entry& o) {
        all_went = true;
        return o.b == 0;
      });
      if (!all_went) continue;
      std::erase_if(list, [](const Entry& o) { return o.b == 0; });
      ++thrown_out;
    }
    for (; !list.empty(); list.pop_back()) ASSERT_EQ(queue.pop().a, list.back().a);
    EXPECT_TRUE(queue.empty());
    EXPECT_GT(thrown_out, 0);
  }
}

}  // namespace
}  // namespace hummock::leap
