#include "engine/leap/ground/ground_folds.h"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;

void GroundFolds::unfold(int block, int part, std::vector<SurfacePiece>& out) const {
  const GroundSurface& s = *of_.surface;
  const int i0 = block % blocks_across() * kBlock;
  const int j0 = block / blocks_across() * kBlock;
  for (int j = j0; j < std::min(s.ny(), j0 + kBlock); ++j) {
    for (int i = i0; i < std::min(s.nx(), i0 + kBlock); ++i) {
      if (used(i, j) && part_at(i, j) == part) out.push_back(piece_of(i, j));
    }
  }
}

std::vector<std::vector<SurfacePiece>> GroundFolds::blocks(int parts) const {
  std::vector<std::vector<std::pair<int, SurfacePiece>>> rows(
      static_cast<std::size_t>(of_.part.up()));
  tbb::parallel_for(0, of_.part.up(), [&](int bj) {
    for (int bi = 0; bi < blocks_across(); ++bi) {
      for (const Range& r : ranges_of(bi, bj))
        rows[static_cast<std::size_t>(bj)].emplace_back(
            r.part, block_of(bj * blocks_across() + bi, r.i0, r.j0, r.i1, r.j1));
    }
  });
  std::vector<std::vector<SurfacePiece>> out(static_cast<std::size_t>(parts));
  for (const auto& row : rows) {
    for (const auto& [part, block] : row) out[static_cast<std::size_t>(part)].push_back(block);
  }
  return out;
}

bool GroundFolds::unused(int bi, int bj) const {
  const std::optional<char> all = of_.squares->state.whole(bi, bj);
  if (!all || *all == kPlace || (*all == kWater && of_.swims)) return false;
  return of_.slid.is_whole(bi, bj, 0);
}

std::optional<int> GroundFolds::whole(int bi, int bj) const {
  const bool places = of_.squares->state.is_whole(bi, bj, kPlace);
  return places ? of_.part.whole(bi, bj) : std::nullopt;
}

std::vector<GroundFolds::Range> GroundFolds::ranges_of(int bi, int bj) const {
  if (unused(bi, bj)) return {};
  const int i1 = BlockGrid<int>::last(bi, of_.surface->nx());
  const int j1 = BlockGrid<int>::last(bj, of_.surface->ny());
  if (const auto part = whole(bi, bj)) return {{*part, bi * kBlock, bj * kBlock, i1, j1}};
  std::vector<Range> ranges;
  for (int j = bj * kBlock; j <= j1; ++j) {
    for (int i = bi * kBlock; i <= i1; ++i) {
      if (!used(i, j)) continue;
      const int part = part_at(i, j);
      auto r = std::find_if(ranges.begin(), ranges.end(),
                            [&](const Range& range) { return range.part == part; });
      if (r == ranges.end()) r = ranges.insert(r, {part, i, j, i, j});
      r->i0 = std::min(r->i0, i);
      r->i1 = std::max(r->i1, i);
      r->j1 = j;
    }
  }
  return ranges;
}

bool GroundFolds::any_of_state(char wanted, int i0, int j0, int i1, int j1) const {
  const auto& state_of = of_.squares->state;
  i0 = std::max(0, i0);
  j0 = std::max(0, j0);
  i1 = std::min(of_.surface->nx() - 1, i1);
  j1 = std::min(of_.surface->ny() - 1, j1);
  for (int bj = j0 / kBlock; bj <= j1 / kBlock; ++bj) {
    for (int bi = i0 / kBlock; bi <= i1 / kBlock; ++bi) {
      if (const auto all = state_of.whole(bi, bj)) {
        if (*all == wanted) return true;
        continue;
      }
      for (int j = std::max(j0, bj * kBlock); j <= std::min(j1, (bj + 1) * kBlock - 1); ++j) {
        for (int i = std::max(i0, bi * kBlock); i <= std::min(i1, (bi + 1) * kBlock - 1); ++i) {
          if (state_of.at(i, j) == wanted) return true;
        }
      }
    }
  }
  return false;
}

SurfacePiece GroundFolds::block_of(int block, int i0, int j0, int i1, int j1) const {
  SurfacePiece out;
  out.fold = block;
  out.cell = of_.surface->box(i0, j0, i1, j1);
  out.hook = any_of_state(kSteep, i0 - 1, j0 - 1, i1 + 1, j1 + 1);
  if (of_.swims && any_of_state(kWater, i0, j0, i1, j1)) {
    for (int j = j0; j <= j1; ++j) {
      for (int i = i0; i <= i1; ++i) {
        if (afloat(i, j)) out.cell.add(cell_of(i, j));
      }
    }
  }
  out.at = out.cell.centre();
  return out;
}

std::int64_t GroundFolds::squares_lived_on() const {
  std::int64_t count = 0;
  const GroundSurface& s = *of_.surface;
  for (int bj = 0; bj < of_.part.up(); ++bj) {
    for (int bi = 0; bi < blocks_across(); ++bi) {
      if (unused(bi, bj)) continue;
      const int i1 = BlockGrid<int>::last(bi, s.nx());
      const int j1 = BlockGrid<int>::last(bj, s.ny());
      if (const auto part = whole(bi, bj)) {
        const std::int64_t all =
            static_cast<std::int64_t>(i1 - bi * kBlock + 1) * (j1 - bj * kBlock + 1);
        count += *part == 0 ? all : 0;
        continue;
      }
      for (int j = bj * kBlock; j <= j1; ++j) {
        for (int i = bi * kBlock; i <= i1; ++i) {
          const bool lives = used(i, j) && !slid(i, j) && part_at(i, j) == 0;
          count += lives ? 1 : 0;
        }
      }
    }
  }
  return count;
}

bool GroundFolds::any_climbed(int part) const {
  const GroundSurface& s = *of_.surface;
  if (!s.climbs_earth()) return false;
  bool any = false;
  const auto skip = [&](int bi, int bj) { return any || !s.any_steep(bi, bj); };
  by_rows(s.nx(), s.ny(), skip, [&](int i, int j) {
    any = any || (used(i, j) && !afloat(i, j) && part_at(i, j) == part && s.steep(i, j));
  });
  return any;
}

// From the bottom where it floats, so that it meets the shore.
Box3 GroundFolds::cell_of(int i, int j) const {
  Box3 cell = of_.surface->cell(i, j);
  if (!afloat(i, j)) return cell;
  const double level = of_.surface->water_level(of_.squares->point(i, j));
  cell.lo.z = std::min(cell.lo.z, level);
  cell.hi.z = level;
  return cell;
}

SurfacePiece GroundFolds::piece_of(int i, int j) const {
  const Vec2 p = of_.squares->point(i, j);
  SurfacePiece piece;
  piece.cell = cell_of(i, j);
  if (afloat(i, j)) {
    piece.at = at_height(p, of_.surface->water_level(p) + kLift);  // left from its surface
    return piece;
  }
  piece.at = at_height(p, of_.surface->height(p) + kLift);
  piece.slid = slid(i, j);
  piece.hook = !piece.slid && beside_steep(i, j);
  piece.cling = of_.surface->climbs_earth() && of_.surface->steep(i, j);
  return piece;
}

bool GroundFolds::beside_steep(int i, int j) const {
  for (const auto& [di, dj] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
    const int a = i + di;
    const int b = j + dj;
    if (a < 0 || b < 0 || a >= of_.surface->nx() || b >= of_.surface->ny()) continue;
    if (state(a, b) == kSteep) return true;
  }
  return false;
}

}  // namespace hummock::leap
