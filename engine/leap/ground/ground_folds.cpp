#include "engine/leap/ground/ground_folds.h"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;

void GroundFolds::unfold(int block, int part, std::vector<SurfacePiece>& out) const {
  const GroundSurface& s = *of_.surface;
  const int bi = block % blocks_across(), bj = block / blocks_across();
  const int i0 = bi * kBlock, i1 = BlockGrid<int>::last(bi, s.nx());
  const int j0 = bj * kBlock, j1 = BlockGrid<int>::last(bj, s.ny());
  const std::vector<Box3> cells = s.cells(i0, j0, i1, j1);
  const std::vector<double> middles = s.middles(i0, j0, i1, j1);
  const bool all = whole(bi, bj).value_or(-1) == part;
  const bool any_steep = any_of_state(kSteep, i0 - 1, j0 - 1, i1 + 1, j1 + 1);
  std::size_t k = 0;
  for (int j = j0; j <= j1; ++j) {
    for (int i = i0; i <= i1; ++i, ++k) {
      if (all || (used(i, j) && part_at(i, j) == part))
        out.push_back(piece_of({i, j, middles[k], any_steep}, cells[k]));
    }
  }
}

GroundFolds::GroundFolds(Squares of, const GroundFolds& before)
    : of_(std::move(of)), most_kept_(kMostKept) {
  if (of_.surface != before.of_.surface || of_.swims != before.of_.swims) return;
  const std::lock_guard lock(before.keeping_);
  for (const auto& [of_block, patch] : before.kept_)
    if (lays_the_same(before, of_block.first)) kept_.emplace_hint(kept_.end(), of_block, patch);
}

// All that `unfold` reads beside the surface: what the squares are, to one beyond the block, whose
// they are, which are slid down to, and their points.
bool GroundFolds::lays_the_same(const GroundFolds& other, int block) const {
  const int bi = block % blocks_across(), bj = block / blocks_across();
  const int i0 = bi * kBlock, i1 = BlockGrid<int>::last(bi, of_.surface->nx());
  const int j0 = bj * kBlock, j1 = BlockGrid<int>::last(bj, of_.surface->ny());
  for (int j = std::max(0, j0 - 1); j <= std::min(of_.surface->ny() - 1, j1 + 1); ++j) {
    for (int i = std::max(0, i0 - 1); i <= std::min(of_.surface->nx() - 1, i1 + 1); ++i)
      if (state(i, j) != other.state(i, j)) return false;
  }
  for (int j = j0; j <= j1; ++j) {
    for (int i = i0; i <= i1; ++i) {
      if (part_at(i, j) != other.part_at(i, j) || slid(i, j) != other.slid(i, j)) return false;
      if (used(i, j) && !(of_.squares->point(i, j) == other.of_.squares->point(i, j))) return false;
    }
  }
  return true;
}

PatchPtr GroundFolds::laid(int block, int part) const {
  {
    const std::lock_guard lock(keeping_);
    const auto known = kept_.find({block, part});
    if (known != kept_.end()) return known->second;
  }
  auto patch = std::make_shared<Patch>();
  unfold(block, part, patch->pieces);
  build_tree(*patch);
  patch->tree.shrink_to_fit();
  const std::lock_guard lock(keeping_);
  if (kept_.size() < most_kept_) kept_.try_emplace({block, part}, patch);
  return patch;
}

std::size_t GroundFolds::kept() const {
  const std::lock_guard lock(keeping_);
  return kept_.size();
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

std::vector<std::vector<SurfacePiece>> GroundFolds::all(int parts) const {
  using OfPart = std::pair<int, std::vector<SurfacePiece>>;
  std::vector<std::vector<OfPart>> rows(static_cast<std::size_t>(of_.part.up()));
  tbb::parallel_for(0, of_.part.up(), [&](int bj) {
    std::vector<OfPart>& row = rows[static_cast<std::size_t>(bj)];
    for (int bi = 0; bi < blocks_across(); ++bi) {
      for (const Range& r : ranges_of(bi, bj)) {
        const auto own = std::find_if(row.begin(), row.end(),
                                      [&](const OfPart& o) { return o.first == r.part; });
        OfPart& of =
            own == row.end() ? row.emplace_back(r.part, std::vector<SurfacePiece>()) : *own;
        unfold(bj * blocks_across() + bi, r.part, of.second);
      }
    }
  });
  std::vector<std::vector<SurfacePiece>> out(static_cast<std::size_t>(parts));
  for (auto& row : rows) {
    for (const auto& [part, pieces] : row) {
      auto& to = out[static_cast<std::size_t>(part)];
      to.insert(to.end(), pieces.begin(), pieces.end());
    }
    row = {};
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

Box3 GroundFolds::cell_of(int i, int j) const {
  return afloat_from(i, j, of_.surface->cell(i, j));
}

// From the bottom where it floats, so that it meets the shore.
Box3 GroundFolds::afloat_from(int i, int j, Box3 cell) const {
  if (!afloat(i, j)) return cell;
  const double level = of_.surface->water_level(of_.squares->point(i, j));
  cell.lo.z = std::min(cell.lo.z, level);
  cell.hi.z = level;
  return cell;
}

SurfacePiece GroundFolds::piece_of(const Square& square, const Box3& cell) const {
  const auto [i, j, middle, any_steep] = square;
  const Vec2 p = of_.squares->point(i, j);
  SurfacePiece piece;
  piece.cell = afloat_from(i, j, cell);
  if (afloat(i, j)) {
    piece.at = at_height(p, of_.surface->water_level(p) + kLift);  // left from its surface
    return piece;
  }
  const bool in_the_middle = p == of_.surface->at(i, j, 0.5, 0.5);
  piece.at = at_height(p, (in_the_middle ? middle : of_.surface->height(p)) + kLift);
  piece.slid = slid(i, j);
  piece.hook = any_steep && !piece.slid && beside_steep(i, j);
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
