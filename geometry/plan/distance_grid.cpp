#include "geometry/plan/distance_grid.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace hummock::geom {
namespace {

constexpr double kFar = 1e30;  // cells²: no marked node in this line

// d[k] = min over q of (k − q)² + f[q], in place; `hull` and `from` are scratch.
void envelope(std::vector<double>& f, std::vector<double>& out, std::vector<int>& hull,
              std::vector<double>& from) {
  const int n = static_cast<int>(f.size());
  const auto at = [&](int k) -> double { return f[static_cast<std::size_t>(k)]; };
  int top = -1;
  for (int q = 0; q < n; ++q) {
    if (at(q) >= kFar) continue;
    double s = -kFar;
    while (top >= 0) {
      const int p = hull[static_cast<std::size_t>(top)];
      s = ((at(q) + static_cast<double>(q) * q) - (at(p) + static_cast<double>(p) * p)) /
          (2.0 * (q - p));
      if (s > from[static_cast<std::size_t>(top)]) break;
      --top;
      s = -kFar;
    }
    ++top;
    hull[static_cast<std::size_t>(top)] = q;
    from[static_cast<std::size_t>(top)] = s;
  }
  int piece = 0;
  for (int k = 0; k < n; ++k) {
    if (top < 0) {
      out[static_cast<std::size_t>(k)] = kFar;
      continue;
    }
    while (piece < top && from[static_cast<std::size_t>(piece) + 1] < k) ++piece;
    const int q = hull[static_cast<std::size_t>(piece)];
    out[static_cast<std::size_t>(k)] = static_cast<double>(k - q) * (k - q) + at(q);
  }
}

struct Line {
  std::vector<double> in, out, from;
  std::vector<int> hull;
  explicit Line(int n)
      : in(static_cast<std::size_t>(n)),
        out(static_cast<std::size_t>(n)),
        from(static_cast<std::size_t>(n)),
        hull(static_cast<std::size_t>(n)) {}
  void run() { envelope(in, out, hull, from); }
};

// In the grid with a ring of one node round it: to the nearest marked node of the same column, in
// nodes. Down and up again, a stripe of columns at a time: what stands in memory side by side is
// looked at side by side.
class ColumnGaps {
 public:
  static constexpr std::int32_t kNone = 1 << 28;  // no marked node in the column

  ColumnGaps(const Grid& grid, const std::vector<std::uint8_t>& marked, Beyond beyond)
      : marked_(marked),
        ring_(beyond == Beyond::marked ? 0 : kNone),
        across_(static_cast<std::size_t>(grid.nx) + 2),
        up_(static_cast<std::size_t>(grid.ny) + 2),
        gaps_(across_ * up_) {
    constexpr std::size_t kStripe = 256;
    tbb::parallel_for(std::size_t{0}, (across_ + kStripe - 1) / kStripe, [&](std::size_t s) {
      fill(s * kStripe, std::min(across_, (s + 1) * kStripe));
    });
  }
  const std::int32_t* row(std::size_t j) const { return &gaps_[j * across_]; }

 private:
  void fill(std::size_t from, std::size_t to) {
    for (std::size_t j = 0; j < up_; ++j) {
      std::int32_t* row = &gaps_[j * across_];
      set_seeds(j, from, to, row);
      if (j > 0) take_next(row - across_, from, to, row);
    }
    for (std::size_t j = up_ - 1; j-- > 0;) {
      std::int32_t* row = &gaps_[j * across_];
      take_next(row + across_, from, to, row);
    }
  }

  void set_seeds(std::size_t j, std::size_t from, std::size_t to, std::int32_t* row) const {
    std::fill(row + from, row + to, ring_);
    if (j == 0 || j + 1 == up_) return;
    const std::uint8_t* marked = &marked_[(j - 1) * (across_ - 2)];
    for (std::size_t i = std::max<std::size_t>(1, from); i < std::min(to, across_ - 1); ++i)
      row[i] = marked[i - 1] != 0 ? 0 : kNone;
  }

  static void take_next(const std::int32_t* next, std::size_t from, std::size_t to,
                        std::int32_t* row) {
    for (std::size_t i = from; i < to; ++i) row[i] = std::min(row[i], next[i] + 1);
  }

  const std::vector<std::uint8_t>& marked_;
  std::int32_t ring_;
  std::size_t across_, up_;
  std::vector<std::int32_t> gaps_;
};

double squared(std::int32_t gap) {
  return gap >= ColumnGaps::kNone ? kFar : static_cast<double>(gap) * static_cast<double>(gap);
}

}  // namespace

// Squares of whole numbers are exact, so it does not matter by which way the least is found.
std::vector<double> distance_to_marked(const Grid& grid, const std::vector<std::uint8_t>& marked,
                                       Beyond beyond) {
  const std::size_t nx = static_cast<std::size_t>(grid.nx), ny = static_cast<std::size_t>(grid.ny);
  const ColumnGaps gaps(grid, marked, beyond);
  std::vector<double> out(grid.size());
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, ny), [&](const auto& rows) {
    Line across(grid.nx + 2);
    for (std::size_t j = rows.begin(); j < rows.end(); ++j) {
      std::transform(gaps.row(j + 1), gaps.row(j + 1) + nx + 2, across.in.begin(), squared);
      across.run();
      for (std::size_t i = 0; i < nx; ++i) {
        const double least = across.out[i + 1];
        out[j * nx + i] =
            least >= kFar ? std::numeric_limits<double>::infinity() : grid.cell * std::sqrt(least);
      }
    }
  });
  return out;
}

}  // namespace hummock::geom
