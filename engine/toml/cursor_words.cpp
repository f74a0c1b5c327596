// What a cursor says of ranges and of keys that are nearly right.
#include <algorithm>
#include <numeric>

#include "engine/toml/table_cursor.h"

namespace hummock {
namespace {

// Changed, missing, added letters and swapped neighbours that turn a into b.
std::size_t edits_between(std::string_view a, std::string_view b) {
  std::vector<std::size_t> two_up(b.size() + 1), up(b.size() + 1), row(b.size() + 1);
  std::iota(up.begin(), up.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = up[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({up[j] + 1, row[j - 1] + 1, changed});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], two_up[j - 2] + 1);
    }
    std::swap(two_up, up);
    std::swap(up, row);
  }
  return up.back();
}

}  // namespace

std::string in_words(const Range& range) {
  if (range.hi >= kAnyFigure.hi) return "a number";
  const std::string unit = *range.unit == '\0' ? "" : std::string(" (") + range.unit + ")";
  if (range.above_lo) {
    return "a number above " + plain_number(range.lo) + ", up to " + plain_number(range.hi) + unit;
  }
  return "a number from " + plain_number(range.lo) + " to " + plain_number(range.hi) + unit;
}

std::optional<std::string> nearest_word(const std::string& text,
                                        const std::vector<std::string>& allowed) {
  if (text.size() > 60) return std::nullopt;
  const std::string* best = nullptr;
  std::size_t least = std::max<std::size_t>(1, text.size() / 3) + 1;
  for (const std::string& word : allowed) {
    const std::size_t edits = edits_between(text, word);
    if (edits < least) {
      least = edits;
      best = &word;
    }
  }
  return best == nullptr ? std::nullopt : std::optional(*best);
}

}  // namespace hummock
