#include "engine/shade/day/shade_patches.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstddef>

#include "engine/usable/body_patches.h"
#include "geometry/disjoint_sets.h"

namespace hummock::shade {
namespace {

constexpr int kWord = 64;

// Nodes nearer than `reach` cells to a node, or as near where `closed`.
std::vector<std::pair<int, int>> disc(double reach, bool closed) {
  std::vector<std::pair<int, int>> out;
  const int n = static_cast<int>(std::ceil(reach)) + 1;
  for (int j = -n; j <= n; ++j)
    for (int i = -n; i <= n; ++i) {
      const double d = std::sqrt(static_cast<double>(i * i + j * j));
      if (closed ? d <= reach : d < reach) out.emplace_back(i, j);
    }
  return out;
}

// Word w of a row as if the row's nodes stood `by` further back: bit k is node 64 w + k + by.
std::uint64_t shifted(const std::uint64_t* row, int w, int by) {
  const int whole = by >= 0 ? by / kWord : -((kWord - 1 - by) / kWord);
  const int bits = by - whole * kWord;
  const std::uint64_t low = row[w + whole] >> bits;
  return bits == 0 ? low : low | row[w + whole + 1] << (kWord - bits);
}

// A run of nodes in one row: first to last.
struct Run {
  int row = 0, first = 0, last = 0;
};

std::vector<Run> runs_of(const NodeBits& nodes) {
  std::vector<Run> runs;
  for (int j = 0; j < nodes.ny; ++j) {
    const std::uint64_t* row = nodes.row(j);
    for (int w = 0; w < nodes.words; ++w) {
      for (std::uint64_t left = row[w]; left != 0;) {
        const int from = std::countr_zero(left);
        const int length = std::countr_one(left >> from);
        const int first = w * kWord + from, last = first + length - 1;
        left = from + length >= kWord ? 0 : left & (~std::uint64_t{0} << (from + length));
        if (!runs.empty() && runs.back().row == j && runs.back().last + 1 == first) {
          runs.back().last = last;
        } else {
          runs.push_back({j, first, last});
        }
      }
    }
  }
  return runs;
}

bool any_in(const NodeBits& nodes, const Run& r) {
  const std::uint64_t* row = nodes.row(r.row);
  for (int w = r.first / kWord; w <= r.last / kWord; ++w) {
    std::uint64_t mask = ~std::uint64_t{0};
    if (w == r.first / kWord) mask &= ~std::uint64_t{0} << (r.first % kWord);
    if (w == r.last / kWord) mask &= ~std::uint64_t{0} >> (kWord - 1 - r.last % kWord);
    if ((row[w] & mask) != 0) return true;
  }
  return false;
}

void set_run(NodeBits& nodes, const Run& r) {
  for (int w = r.first / kWord; w <= r.last / kWord; ++w) {
    std::uint64_t mask = ~std::uint64_t{0};
    if (w == r.first / kWord) mask &= ~std::uint64_t{0} << (r.first % kWord);
    if (w == r.last / kWord) mask &= ~std::uint64_t{0} >> (kWord - 1 - r.last % kWord);
    nodes.row(r.row)[w] |= mask;
  }
}

// Joins runs of neighbouring rows that share a column.
void join_rows(const std::vector<Run>& runs, geom::DisjointSets& sets) {
  std::size_t above = 0;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    while (above < k && (runs[above].row < runs[k].row - 1 ||
                         (runs[above].row == runs[k].row - 1 && runs[above].last < runs[k].first)))
      ++above;
    for (std::size_t a = above;
         a < k && runs[a].row == runs[k].row - 1 && runs[a].first <= runs[k].last; ++a)
      sets.join(static_cast<std::uint32_t>(a), static_cast<std::uint32_t>(k));
  }
}

// The nodes of `of` that are joined, along x and y, to some node of `seeds`.
NodeBits joined_to(const NodeBits& seeds, const NodeBits& of, NodeBits out) {
  const std::vector<Run> runs = runs_of(of);
  geom::DisjointSets sets(runs.size());
  join_rows(runs, sets);
  std::vector<char> keep(runs.size(), 0);
  for (std::uint32_t k = 0; k < runs.size(); ++k)
    if (any_in(seeds, runs[k])) keep[sets.root(k)] = 1;
  for (std::uint32_t k = 0; k < runs.size(); ++k)
    if (keep[sets.root(k)] != 0) set_run(out, runs[k]);
  return out;
}

}  // namespace

NodeBits::NodeBits(const geom::Grid& grid, int pad_words)
    : nx(grid.nx), ny(grid.ny), pad(pad_words), words((grid.nx + kWord - 1) / kWord) {
  bits.assign(static_cast<std::size_t>(words + 2 * pad) * static_cast<std::size_t>(ny), 0);
}

std::size_t NodeBits::count() const {
  std::size_t n = 0;
  for (const std::uint64_t w : bits) n += static_cast<std::size_t>(std::popcount(w));
  return n;
}

ShadePatches::ShadePatches(const geom::Grid& grid, double length, double width) : grid_(grid) {
  const double half = 0.5 * (width + grid.cell) - 1e-9;
  body_ = disc(half / grid.cell, false);
  grown_ = disc((std::sqrt(2.0) * half + 1e-6) / grid.cell, true);
  lying_ = usable::lying_shapes(grid.cell, length, width);
  int far = 0;
  const auto take = [&](const Offsets& shape) {
    for (const auto& [i, j] : shape) far = std::max(far, std::abs(i));
  };
  take(body_);
  take(grown_);
  for (const Offsets& shape : lying_) take(shape);
  pad_ = far / kWord + 2;
}

// The nodes of `within` about which the whole shape lies on `from`.
NodeBits ShadePatches::eroded(const NodeBits& from, const Offsets& shape,
                              const NodeBits& within) const {
  NodeBits out = none();
  for (int j = 0; j < from.ny; ++j)
    for (int w = 0; w < from.words; ++w) {
      std::uint64_t left = within.row(j)[w];
      for (std::size_t k = 0; left != 0 && k < shape.size(); ++k) {
        const int r = j + shape[k].second;
        left &= r < 0 || r >= from.ny ? 0 : shifted(from.row(r), w, shape[k].first);
      }
      out.row(j)[w] = left;
    }
  return out;
}

void ShadePatches::dilate_onto(const NodeBits& from, NodeBits& onto) const {
  for (int j = 0; j < onto.ny; ++j)
    for (int w = 0; w < onto.words; ++w) {
      std::uint64_t reached = 0;
      const std::uint64_t all = onto.row(j)[w];
      for (std::size_t k = 0; (all & ~reached) != 0 && k < grown_.size(); ++k) {
        const int r = j + grown_[k].second;
        if (r >= 0 && r < from.ny) reached |= shifted(from.row(r), w, grown_[k].first);
      }
      onto.row(j)[w] = all & reached;
    }
}

NodeBits ShadePatches::fitting(const NodeBits& standing) const {
  const NodeBits middles = eroded(standing, body_, standing);
  NodeBits seeds = none(), left = middles;  // those it can lie about, and those not known yet
  for (const Offsets& shape : lying_) {
    const NodeBits lie = eroded(standing, shape, left);
    for (std::size_t k = 0; k < seeds.bits.size(); ++k) {
      seeds.bits[k] |= lie.bits[k];
      left.bits[k] &= ~lie.bits[k];
    }
  }
  NodeBits out = standing;
  dilate_onto(joined_to(seeds, middles, none()), out);
  return out;
}

}  // namespace hummock::shade
