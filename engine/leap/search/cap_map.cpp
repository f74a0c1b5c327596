#include "engine/leap/search/cap_map.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <limits>
#include <tuple>

#include "engine/leap/leap.h"
#include "engine/leap/places/places.h"

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

geom::Raster height_cap(const Model& model, double ability_margin) {
  const double cell = model.ground.grid.cell;
  const PlaceRules rules = place_rules(model.site.species, cell, false);
  const double H = rules.ability.height * ability_margin;
  const double a = rules.ability.stretch * rules.ability.stretch / (4.0 * H);
  std::vector<Vec3> points;
  for (const PatchPtr& patch : exits(model, rules)) {
    for (const SurfacePiece& piece : patch->pieces) {
      const Vec3 middle = piece.cell.centre();
      const double half = 0.5 * length(xy(piece.cell.hi) - xy(piece.cell.lo));
      points.push_back(
          {middle.x, middle.y, piece.cell.lo.z - rules.ability.grip - a * half * half});
    }
  }
  const double s = rules.ability.stretch;
  std::vector<double> cap = lower_envelope(model.ground.grid, points, H, s);
  if (s > 1.0) {
    const std::vector<double> plain =
        lower_envelope(model.ground.grid, std::move(points), H / s, 1.0);
    for (std::size_t k = 0; k < cap.size(); ++k) cap[k] = std::min(cap[k], plain[k]);
  }
  geom::Raster raster(model.ground.grid);
  for (int j = 0; j < raster.grid.ny; ++j) {
    for (int i = 0; i < raster.grid.nx; ++i) {
      const double c = cap[raster.grid.index(i, j)];
      if (c < kInfinite && geom::contains(model.outline, raster.grid.node(i, j))) {
        raster.at(i, j) = static_cast<float>(c);
      }
    }
  }
  return raster;
}

}  // namespace hummock::leap
