#include "engine/water/basins.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "engine/water/neighbours.h"
#include "geometry/mesh/prism_volume.h"
#include "geometry/plan/polygon_cells.h"

namespace hummock::water {
namespace {

// Where the ground's triangles inside the outline pass the level.
void add_waterline(const geom::Mesh& bed, double level, std::vector<Shore>& stations) {
  for (const geom::Triangle& t : bed.triangles) {
    const std::array<Vec3, 3> v{bed.vertices[t[0]], bed.vertices[t[1]], bed.vertices[t[2]]};
    Vec2 sum{};
    int cuts = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3 a = v[k], b = v[(k + 1) % 3];
      if ((a.z < level) == (b.z < level)) continue;
      sum = sum + geom::xy(geom::lerp(a, b, (level - a.z) / (b.z - a.z)));
      ++cuts;
    }
    const Vec3 n = cross(v[1] - v[0], v[2] - v[0]);
    const Vec2 uphill = geom::unit(Vec2{-n.x, -n.y} * (n.z < 0.0 ? -1.0 : 1.0));
    if (cuts == 2 && length(uphill) > 0.0) stations.push_back({sum * 0.5, uphill});
  }
}

// Where the drawn outline itself is wet: the bed meets it below the level.
void add_wet_outline(const Model& model, const Polygon& outline, double level,
                     std::vector<Shore>& stations) {
  const double turn = geom::signed_area(outline) > 0.0 ? -1.0 : 1.0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec2 a = outline[k], b = outline[(k + 1) % outline.size()];
    const int steps =
        std::max(1, static_cast<int>(std::ceil(geom::distance(a, b) / model.ground.grid.cell)));
    for (int s = 0; s < steps; ++s) {
      const Vec2 p = geom::lerp(a, b, (s + 0.5) / steps);
      if (geom::height_at(model.ground, p) < level)
        stations.push_back({p, geom::left_of(geom::unit(b - a)) * turn});
    }
  }
}

// The steepest rise (rad) on the way out at a station, from where the water is `reach` deep.
double side_slope(const Model& model, const Shore& s, double level, double reach, double beyond) {
  constexpr double kFarthestIn = 3.0;  // m; common practice, no source
  const Vec2 from = s.at - s.out * kFarthestIn, to = s.at + s.out * beyond;
  const double length = kFarthestIn + beyond;
  const std::vector<double> breaks = geom::ground_breaks(model.ground, from, to);
  double steepest = 0.0;
  double next_z = geom::height_at(model.ground, to);
  for (std::size_t k = breaks.size() - 1; k-- > 0;) {
    const double z = geom::height_at(model.ground, geom::lerp(from, to, breaks[k]));
    const double run = (breaks[k + 1] - breaks[k]) * length;
    if (run > 1e-9) steepest = std::max(steepest, std::atan((next_z - z) / run));
    if (breaks[k] * length <= kFarthestIn && level - z >= reach) break;
    next_z = z;
  }
  return steepest;
}

// Some water of it lies within the boundary: only then is an animal in it.
bool in_the_yard(const Model& model, const geom::Mesh& bed, double level) {
  return std::any_of(bed.triangles.begin(), bed.triangles.end(), [&](const geom::Triangle& t) {
    const Vec3 middle = (bed.vertices[t[0]] + bed.vertices[t[1]] + bed.vertices[t[2]]) * (1.0 / 3);
    return middle.z < level && geom::contains(model.outline, geom::xy(middle));
  });
}

struct Side {
  double slope = 0.0;  // rad
  Shore shore;
};

// The flattest of the sides by which the animal comes out; upright when there is none. A basin
// beyond the fence is taken as it is.
Side easiest_side(std::vector<Side> sides, const BasinRow& row, const WayOut& way_out, double reach,
                  double beyond, bool in_yard) {
  std::stable_sort(sides.begin(), sides.end(),
                   [](const Side& a, const Side& b) { return a.slope < b.slope; });
  for (const Side& s : sides)
    if (!in_yard || way_out.open(s.shore, row.level_m, reach, beyond)) return s;
  return sides.empty() ? Side{} : Side{geom::kPi / 2, sides.front().shore};
}

void judge_sides(const Model& model, const Polygon& outline, const geom::Mesh& bed,
                 const WayOut& way_out, BasinRow& row) {
  // A hair under water: a dug basin's rim lies level with the land, where rounding has no uphill.
  const double shore = row.level_m - std::min(1e-3, 0.1 * row.deepest_m);
  std::vector<Shore> stations;
  add_waterline(bed, shore, stations);
  add_wet_outline(model, outline, shore, stations);
  const auto& body = model.site.species.body.value;
  const double reach = std::min(std::max(body[2], 0.05), row.deepest_m);
  const double beyond = std::max(body[0], model.ground.grid.cell);
  std::vector<Side> sides;
  double steepest = 0.0;
  for (const Shore& s : stations) {
    sides.push_back({side_slope(model, s, row.level_m, reach, beyond), s});
    steepest = std::max(steepest, sides.back().slope);
  }
  const bool in_yard = in_the_yard(model, bed, shore);
  const Side easiest = easiest_side(std::move(sides), row, way_out, reach, beyond, in_yard);
  row.easiest_at = easiest.shore.at;
  row.easiest_side_deg = easiest.slope / geom::kDegree;
  row.steepest_side_deg = steepest / geom::kDegree;
  row.can_climb_out = easiest.slope <= model.site.species.stand_slope.value + 1e-9;
}

void judge_rim(const Model& model, std::size_t index, const std::vector<double>& brim,
               const std::vector<std::int32_t>& wet, BasinRow& row) {
  double lowest = 1e300;
  row.rim_m = row.level_m;
  for (std::size_t n = 0; n < wet.size(); ++n) {
    if (wet[n] != static_cast<std::int32_t>(index) + 1 || model.ground.z[n] >= lowest) continue;
    lowest = model.ground.z[n];
    row.rim_m = brim[n];
  }
  row.holds_water = row.rim_m >= row.level_m - 0.01;
}

// Next to a wet node lies one that is lower than the water, and nothing between holds it up.
bool lies_beyond(const Model& model, std::size_t index, const std::vector<std::int32_t>& wet,
                 const std::vector<geom::Crossing>& walls) {
  constexpr double kFilm = 0.02;  // m; common practice, no source
  const geom::Grid& g = model.ground.grid;
  const double level = *model.site.waters[index].level;
  std::set<std::pair<std::size_t, std::size_t>> held;
  for (const geom::Crossing& c : walls)
    if (c.level >= level) held.insert(std::minmax(c.a, c.b));
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t n = g.index(i, j);
      if (wet[n] != static_cast<std::int32_t>(index) + 1) continue;
      for (const Step& s : kSteps) {
        if (!g.holds(i + s.di, j + s.dj)) continue;
        const std::size_t v = g.index(i + s.di, j + s.dj);
        if (wet[v] == 0 && model.ground.z[v] < level - kFilm && !held.contains(std::minmax(n, v)))
          return true;
      }
    }
  return false;
}

}  // namespace

std::vector<std::int32_t> wet_nodes(const Model& model) {
  std::vector<std::int32_t> wet(model.ground.grid.size(), 0);
  for (std::size_t k = 0; k < model.site.waters.size(); ++k) {
    const Water& w = model.site.waters[k];
    if (!w.level) continue;
    const std::vector<std::uint8_t> in = geom::nodes_inside(model.ground.grid, w.outline);
    for (std::size_t n = 0; n < wet.size(); ++n)
      if (in[n] != 0 && model.ground.z[n] < *w.level) wet[n] = static_cast<std::int32_t>(k) + 1;
  }
  return wet;
}

DryPieces dry_pieces(const Model& model, const std::vector<std::uint8_t>& inside,
                     const std::vector<std::int32_t>& wet) {
  const geom::Grid& g = model.ground.grid;
  DryPieces dry;
  dry.inside = inside;
  dry.of_node.assign(g.size(), -1);
  std::vector<std::size_t> open;
  for (std::size_t start = 0; start < g.size(); ++start) {
    if (inside[start] == 0 || wet[start] != 0 || dry.of_node[start] >= 0) continue;
    const auto id = static_cast<std::int32_t>(dry.nodes_in.size());
    dry.nodes_in.push_back(0);
    dry.of_node[start] = id;
    open.push_back(start);
    while (!open.empty()) {
      const std::size_t n = open.back();
      open.pop_back();
      ++dry.nodes_in.back();
      const int i = static_cast<int>(n % static_cast<std::size_t>(g.nx));
      const int j = static_cast<int>(n / static_cast<std::size_t>(g.nx));
      for (const Step& s : kSteps) {
        if (!g.holds(i + s.di, j + s.dj)) continue;
        const std::size_t v = g.index(i + s.di, j + s.dj);
        if (inside[v] == 0 || wet[v] != 0 || dry.of_node[v] >= 0) continue;
        dry.of_node[v] = id;
        open.push_back(v);
      }
    }
  }
  return dry;
}

BasinRow basin_row(const Model& model, std::size_t index, const std::vector<double>& brim,
                   const std::vector<std::int32_t>& wet, const DryPieces& dry,
                   const WayOut& way_out, const std::vector<geom::Crossing>& walls) {
  const Water& water = model.site.waters[index];
  BasinRow row;
  row.name = water.name;
  row.level_m = *water.level;
  const geom::Mesh bed = geom::ground_mesh(model.ground, water.outline);
  const geom::PrismSums sums = geom::prism_sums(bed, row.level_m);
  row.area_m2 = sums.below_area_m2;
  row.volume_m3 = sums.below_m3;
  for (const Vec3& v : bed.vertices) {
    if (row.level_m - v.z <= row.deepest_m) continue;
    row.deepest_m = row.level_m - v.z;
    row.deepest_at = geom::xy(v);
  }
  judge_sides(model, water.outline, bed, way_out, row);
  judge_rim(model, index, brim, wet, row);
  row.lies_beyond = lies_beyond(model, index, wet, walls);
  if (row.lies_beyond) row.can_climb_out = false;  // where it truly ends was not looked at
  const Crossover way = shallowest_way(model, index, wet, dry);
  row.wading_route_deepest_m = way.deepest;
  row.parts_the_yard = way.parts_the_yard;
  row.deeper_than_wade = way.deepest > model.site.species.wade_depth.value;
  return row;
}

}  // namespace hummock::water
