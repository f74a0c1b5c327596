#include "engine/leap/search/cap_map.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/leap.h"
#include "engine/leap/places/places.h"
#include "engine/leap/search/leads_out.h"

namespace hummock::leap {

using geom::Vec3;

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

// The envelope along one row: which point rules between which abscissae.
class RowEnvelope {
 public:
  RowEnvelope(const std::vector<Vec3>& points, double a) : points_(points), a_(a) {}

  void build(double y) {
    ruler_.clear();
    from_.clear();
    height_.clear();
    for (std::size_t k = 0; k < points_.size(); ++k) add(k, y);
  }

  // Abscissae must not fall from call to call after `at = 0`.
  double value(double x, std::size_t& at) const {
    while (at + 1 < ruler_.size() && from_[at + 1] < x) ++at;
    const double d = x - points_[ruler_[at]].x;
    return height_[at] + a_ * d * d;
  }

 private:
  void add(std::size_t k, double y) {
    const double d = y - points_[k].y;
    const double h = points_[k].z + a_ * d * d;
    double from = -kInfinite;
    while (!ruler_.empty()) {
      const double last = points_[ruler_.back()].x;
      const double gap = points_[k].x - last;
      if (gap <= 0.0) {  // the same abscissa: the lower one rules
        if (h >= height_.back()) return;
      } else {
        // Where the two parabolas cross; right of it the new one is lower.
        from = 0.5 * (points_[k].x + last + (h - height_.back()) / (a_ * gap));
        if (from > from_.back()) break;
      }
      ruler_.pop_back();
      from_.pop_back();
      height_.pop_back();
      from = -kInfinite;
    }
    ruler_.push_back(k);
    from_.push_back(from);
    height_.push_back(h);
  }

  const std::vector<Vec3>& points_;
  double a_;
  std::vector<std::size_t> ruler_;
  std::vector<double> from_, height_;
};

}  // namespace

std::vector<double> lower_envelope(const geom::Grid& grid, std::vector<Vec3> points,
                                   double leap_height, double stretch) {
  std::vector<double> cap(grid.size(), kInfinite);
  if (points.empty()) return cap;
  std::sort(points.begin(), points.end(),
            [](Vec3 l, Vec3 r) { return std::tie(l.x, l.y, l.z) < std::tie(r.x, r.y, r.z); });
  const double a = stretch * stretch / (4.0 * leap_height);
  constexpr int kBand = 32;  // rows
  const int bands = (grid.ny + kBand - 1) / kBand;
  tbb::parallel_for(0, bands, [&](int band) {
    RowEnvelope envelope(points, a);
    for (int j = band * kBand; j < std::min(grid.ny, (band + 1) * kBand); ++j) {
      envelope.build(grid.y0 + j * grid.cell);
      std::size_t at = 0;
      for (int i = 0; i < grid.nx; ++i) {
        cap[grid.index(i, j)] = envelope.value(grid.x0 + i * grid.cell, at) - leap_height;
      }
    }
  });
  return cap;
}

namespace {

// The points that nothing may reach: of the ways out, and of the places that lead to them. A piece
// of an edge by its middle, as the next piece begins where it ends; of a place that may stand alone
// the corners of each piece: what is nearest of it is within half its diagonal, square on, of one.
std::vector<Vec3> points_of(const std::vector<PatchPtr>& ways, const std::vector<PatchPtr>& leading,
                            const Ability& ability, double a) {
  std::vector<Vec3> points;
  const auto height = [&](const SurfacePiece& piece, bool hooked) {
    const double half = 0.5 * length(xy(piece.cell.hi) - xy(piece.cell.lo));
    return piece.cell.lo.z - (hooked ? ability.grip : 0.0) - a * half * half;
  };
  for (const PatchPtr& patch : ways) {
    for (const SurfacePiece& piece : all_pieces(*patch)) {
      points.push_back(at_height(xy(piece.cell.centre()), height(piece, true)));
    }
  }
  for (const PatchPtr& patch : leading) {
    for (const SurfacePiece& piece : all_pieces(*patch)) {
      const double z = height(piece, piece.hook);
      for (const double x : {piece.cell.lo.x, piece.cell.hi.x}) {
        for (const double y : {piece.cell.lo.y, piece.cell.hi.y}) points.push_back({x, y, z});
      }
    }
  }
  return points;
}

// (2), of one edge.
void lower_by_reach(const SurfacePiece& edge, double reach, const geom::Grid& grid,
                    std::vector<double>& cap) {
  const Vec3 middle = edge.cell.centre();
  const double radius = reach + 0.5 * length(xy(edge.cell.hi) - xy(edge.cell.lo));
  const auto node = [&](double v, double from, int last) {
    return std::clamp(static_cast<int>(std::floor((v - from) / grid.cell)), 0, last);
  };
  for (int j = node(middle.y - radius, grid.y0, grid.ny - 1);
       j <= node(middle.y + radius + grid.cell, grid.y0, grid.ny - 1); ++j) {
    for (int i = node(middle.x - radius, grid.x0, grid.nx - 1);
         i <= node(middle.x + radius + grid.cell, grid.x0, grid.nx - 1); ++i) {
      const double d = geom::distance(grid.node(i, j), xy(middle));
      if (d > radius) continue;
      double& c = cap[grid.index(i, j)];
      c = std::min(c, edge.cell.lo.z - std::sqrt(radius * radius - d * d));
    }
  }
}

std::vector<double> cap_of(const Model& model, const PlaceRules& rules, double H) {
  const double s = rules.ability.stretch;
  const std::vector<PatchPtr> ways = exits(model, rules);
  const std::vector<PatchPtr> leading = places_that_lead_out(model, rules, H);
  const geom::Grid& grid = model.ground.grid;
  std::vector<Vec3> points = points_of(ways, leading, rules.ability, s * s / (4.0 * H));
  std::vector<double> cap = lower_envelope(grid, points, H, s);
  if (s > 1.0) {
    const std::vector<double> plain = lower_envelope(grid, std::move(points), H / s, 1.0);
    for (std::size_t k = 0; k < cap.size(); ++k) cap[k] = std::min(cap[k], plain[k]);
  }
  if (rules.ability.reach <= 0.0) return cap;
  for (const auto* list : {&ways, &leading}) {
    for (const PatchPtr& patch : *list) {
      for (const SurfacePiece& piece : all_pieces(*patch)) {
        if (piece.hook) lower_by_reach(piece, rules.ability.reach, grid, cap);
      }
    }
  }
  return cap;
}

}  // namespace

geom::Raster height_cap(const Model& model, double ability_margin) {
  const PlaceRules rules = place_rules(model.site.species, model.ground.grid.cell, false);
  const std::vector<double> cap = cap_of(model, rules, rules.ability.height * ability_margin);
  geom::Raster raster(model.ground.grid);
  for (int j = 0; j < raster.grid.ny; ++j) {
    for (int i = 0; i < raster.grid.nx; ++i) {
      const double c = cap[raster.grid.index(i, j)];
      if (c < kInfinite && geom::contains(model.outline, raster.grid.node(i, j))) {
        raster.at(i, j) = static_cast<float>(c - model.snow);  // which lies on the thing too
      }
    }
  }
  return raster;
}

}  // namespace hummock::leap
