#include "engine/leap/search/walls_between.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/leap/ground/basins.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

namespace {

bool parted_ground(const std::vector<PatchPtr>& patches) {
  return std::count_if(patches.begin(), patches.end(),
                       [](const PatchPtr& p) { return p->kind == PatchKind::ground; }) > 1;
}

// No flight rises above this.
double highest(const std::vector<PatchPtr>& patches, double limit) {
  double top = -1e300;
  for (const PatchPtr& p : patches)
    if (!is_exit(*p)) top = std::max(top, p->tree.front().box.hi.z);
  return top + limit;
}

// The least highest saddle between every two basins.
std::vector<double> lowest_ways(const Basins& basins) {
  const auto n = static_cast<std::size_t>(basins.count);
  std::vector<double> height(n * n, WallsBetween::kNothing);
  std::vector<std::size_t> set_of(n);
  std::vector<std::vector<std::size_t>> members(n);
  for (std::size_t k = 0; k < n; ++k) {
    set_of[k] = k;
    members[k] = {k};
  }
  for (const Saddle& s : basins.saddles) {
    const std::size_t a = set_of[static_cast<std::size_t>(s.a)];
    const std::size_t b = set_of[static_cast<std::size_t>(s.b)];
    if (a == b) continue;
    for (const std::size_t p : members[a])
      for (const std::size_t q : members[b]) height[p * n + q] = height[q * n + p] = s.height;
    for (const std::size_t q : members[b]) set_of[q] = a;
    members[a].insert(members[a].end(), members[b].begin(), members[b].end());
    members[b].clear();
  }
  return height;
}

// Which basins a patch is in, or leaves into and comes from. `open`: 1 for those that ground is in.
class Meets {
 public:
  Meets(const Model& model, const Basins& basins, double step, const std::vector<char>& open)
      : model_(model), basins_(basins), step_(step), open_(open) {}

  std::vector<int> of(const Patch& patch) {
    met_.assign(static_cast<std::size_t>(basins_.count), 0);
    std::vector<SurfacePiece> laid;
    for (const SurfacePiece& piece : patch.pieces) {
      if (!patch.folds) {
        add(patch, piece);
        continue;
      }
      laid.clear();
      patch.folds->unfold(piece.fold, patch.part_of_folds, laid);
      for (const SurfacePiece& p : laid) add(patch, p);
    }
    std::sort(found_.begin(), found_.end());
    return std::move(found_);
  }

 private:
  struct Nodes {
    int i0, j0, i1, j1;
  };
  Nodes about(Vec2 lo, Vec2 hi) const {
    const geom::Grid& g = basins_.lattice;
    const auto at = [&](double v, double from, int count) {
      return std::clamp(static_cast<int>(std::floor((v - from) / g.cell)), 0, count - 1);
    };
    return {at(lo.x, g.x0, g.nx), at(lo.y, g.y0, g.ny), at(hi.x + g.cell, g.x0, g.nx),
            at(hi.y + g.cell, g.y0, g.ny)};
  }

  void take(int basin) {
    char& met = met_[static_cast<std::size_t>(basin)];
    if (met == 0) found_.push_back(basin);
    met = 1;
  }

  // Whatever is come to from there adds nothing.
  bool all_met(const Nodes& n) const {
    const geom::Grid& g = basins_.lattice;
    for (int j = n.j0; j <= n.j1; ++j)
      for (int i = n.i0; i <= n.i1; ++i)
        if (met_[static_cast<std::size_t>(basins_.of[g.index(i, j)])] == 0) return false;
    return true;
  }

  // By its point and the corners of its cell. What stands on a cell hides a corner, or holds it: of
  // ground that is no place of this patch, of the rest it is one where ground is.
  void add(const Patch& patch, const SurfacePiece& piece) {
    constexpr double kToTheCorner = 0.98;
    const Box3& c = piece.cell;
    if (of_one_basin(about(xy(c.lo), xy(c.hi)))) return;
    const Vec2 at = xy(piece.at), lo = xy(c.lo), hi = xy(c.hi);
    from_point(patch, at, piece, false);
    for (const Vec2 corner : {lo, hi, Vec2{lo.x, hi.y}, Vec2{hi.x, lo.y}}) {
      const Vec2 p = geom::lerp(at, corner, kToTheCorner);
      if (all_met(about(p, p))) continue;
      const bool hidden = !straight_on(patch, at, p, piece);
      if (!hidden || patch.kind != PatchKind::ground) from_point(patch, p, piece, hidden);
    }
  }

  // All about it: then whatever its points come straight on to is of that basin.
  bool of_one_basin(const Nodes& n) {
    const geom::Grid& g = basins_.lattice;
    const int basin = basins_.of[g.index(n.i0, n.j0)];
    for (int j = n.j0; j <= n.j1; ++j)
      for (int i = n.i0; i <= n.i1; ++i)
        if (basins_.of[g.index(i, j)] != basin) return false;
    take(basin);
    return true;
  }

  // The nodes round the point that it comes to straight on; all of them where it comes to none.
  void from_point(const Patch& patch, Vec2 p, const SurfacePiece& piece, bool only_open) {
    const geom::Grid& g = basins_.lattice;
    const Nodes n = about(p, p);
    if (all_met(n)) return;
    bool any = false;
    for (const bool whatever : {false, true}) {
      if (any) return;
      for (int j = n.j0; j <= n.j1; ++j)
        for (int i = n.i0; i <= n.i1; ++i) {
          if (!whatever && !straight_on(patch, p, g.node(i, j), piece)) continue;
          any = true;
          const int basin = basins_.of[g.index(i, j)];
          if (!only_open || open_[static_cast<std::size_t>(basin)] != 0) take(basin);
        }
    }
  }

  // A little above the ground, or above the cell, and the ground there.
  bool straight_on(const Patch& patch, Vec2 p, Vec2 node, const SurfacePiece& piece) const {
    const double up = kFootOfRays * step_;
    const double over_node = geom::height_at(model_.ground, node) + up;
    const bool on_ground = patch.kind == PatchKind::ground;
    const double z = on_ground ? geom::height_at(model_.ground, p) + up : piece.cell.hi.z + kLift;
    const Vec3 from = at_height(p, z);
    const Vec3 to = at_height(node, on_ground ? over_node : std::max(z, over_node));
    return !model_.body_scene->occluded({from, to - from, 0.0, 1.0});
  }

  const Model& model_;
  const Basins& basins_;
  double step_;
  const std::vector<char>& open_;
  std::vector<int> found_;
  std::vector<char> met_;  // by basin
};

}  // namespace

WallsBetween::WallsBetween(const Model& model, const std::vector<PatchPtr>& patches, double step,
                           double limit) {
  if (!parted_ground(patches)) return;
  const double top = highest(patches, limit) + kSlack * step;
  const Basins basins = find_basins(model, step, top, kMostNodes);
  if (basins.count < 2 || static_cast<std::size_t>(basins.count) > kMostBasins) return;
  basins_ = static_cast<std::size_t>(basins.count);
  step_ = step;
  keep_crossings(basins.saddles);
  height_ = lowest_ways(basins);
  for (double& h : height_) h -= kSlack * step;
  std::vector<char> open(basins_, 0);
  meets_.resize(patches.size());
  const auto meet = [&](bool ground) {
    tbb::parallel_for(std::size_t{0}, patches.size(), [&](std::size_t k) {
      if ((patches[k]->kind == PatchKind::ground) == ground)
        meets_[k] = Meets(model, basins, step, open).of(*patches[k]);
    });
  };
  meet(true);
  for (const std::vector<int>& met : meets_)
    for (const int basin : met) open[static_cast<std::size_t>(basin)] = 1;
  meet(false);
}

void WallsBetween::keep_crossings(const std::vector<Saddle>& saddles) {
  beside_.resize(basins_);
  for (const Saddle& s : saddles) {
    auto& list = crossings_[std::minmax(s.a, s.b)];
    if (list.empty()) {
      beside_[static_cast<std::size_t>(s.a)].push_back(s.b);
      beside_[static_cast<std::size_t>(s.b)].push_back(s.a);
    }
    Crossing c;
    c.where.add(at_height(s.from, 0.0));
    c.where.add(at_height(s.to, 0.0));
    c.height = s.height - kSlack * step_;
    list.push_back(c);
  }
}

std::vector<WallsBetween::Border> WallsBetween::borders_of(std::size_t basin) const {
  std::vector<Border> borders;
  const int own = static_cast<int>(basin);
  for (const int other : beside_[basin])
    borders.push_back({other, &crossings_.at(std::minmax(own, other))});
  return borders;
}

std::vector<double> WallsBetween::from(std::size_t patch) const {
  std::vector<double> out(meets_.size(), kNothing);
  if (!any()) return out;
  for (std::size_t to = 0; to < out.size(); ++to) {
    double least = 1e300;
    for (const int a : meets_[patch])
      for (const int b : meets_[to]) least = std::min(least, between(a, b));
    if (least < 1e299) out[to] = least;
  }
  return out;
}

double KnownWalls::between(std::size_t from, std::size_t to) {
  auto row = rows_.find(from);
  if (row == rows_.end()) row = rows_.emplace(from, walls_.from(from)).first;
  return row->second[to];
}

}  // namespace hummock::leap
