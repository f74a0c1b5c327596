#include "engine/usable/usable_area.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/usable/clear_between.h"
#include "engine/usable/kept_answers.h"
#include "geometry/mesh/convex_piece.h"
#include "geometry/plan/node_range.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock::usable {
namespace {

constexpr int kTileRows = 32;
constexpr double kPart = 0.1;  // m, side of what is judged beside a thing; numeric, a setting

Vec2 middle(const geom::Convex& c) {
  Vec2 sum;
  for (int k = 0; k < c.n; ++k) sum = sum + c[k];
  return sum * (1.0 / c.n);
}

// What may part the ground of one cell. The barrier does not: pieces end at its line.
bool in_the_yard(PartKind kind) {
  return kind == PartKind::object || kind == PartKind::crown || kind == PartKind::planting ||
         kind == PartKind::water;
}

enum class Whose { nobody, own, beyond };

// Judges pieces of ground, each within a cell.
class Judge {
 public:
  Judge(const Model& model, const UsableGround& ground, const Nodes& nodes)
      : model_(model), ground_(ground), nodes_(nodes), beside_(nodes.grid.size(), 0) {
    if (nodes.grid.cell <= kPart + 1e-9) return;
    find_clear_cells();
    for (const Part& part : model.parts)
      if (in_the_yard(part.kind) && !part.mesh.empty()) mark(geom::bounds(part.mesh));
    for (const Polygon& shelter : ground.shelters()) {
      const geom::Box2 box = geom::bounds(shelter);
      mark({at_height(box.lo, 0.0), at_height(box.hi, 0.0)});
    }
  }

  void add(const geom::Convex& piece, const geom::Linear& height, LivingAreas& sums) const {
    const Vec2 p = middle(piece);
    if (beside_[cell_of(p)] == 0) return judge(piece, height, false, sums);
    geom::Box2 box;
    for (int k = 0; k < piece.n; ++k) box.add(piece[k]);
    const int rows = parts_of(box.hi.y - box.lo.y), columns = parts_of(box.hi.x - box.lo.x);
    for (int j = 0; j < rows; ++j) {
      const geom::Convex row = between(piece, {0.0, 1.0}, box.lo.y, box.hi.y, j, rows);
      for (int i = 0; i < columns && row.n >= 3; ++i) {
        const geom::Convex part = between(row, {1.0, 0.0}, box.lo.x, box.hi.x, i, columns);
        if (part.n >= 3) judge(part, height, true, sums);
      }
    }
  }

 private:
  int column(double x) const {
    const geom::Grid& g = nodes_.grid;
    return std::clamp(static_cast<int>(std::floor((x - g.x0) / g.cell)), 0, g.nx - 2);
  }
  int row(double y) const {
    const geom::Grid& g = nodes_.grid;
    return std::clamp(static_cast<int>(std::floor((y - g.y0) / g.cell)), 0, g.ny - 2);
  }
  std::size_t cell_of(Vec2 p) const { return nodes_.grid.index(column(p.x), row(p.y)); }

  void mark(const geom::Box3& box) {
    geom::each_node(nodes_.grid, geom::nodes_about(nodes_.grid, xy(box.lo), xy(box.hi)),
                    [&](std::size_t n) { beside_[n] = 1; });
  }

  static int parts_of(double span) {
    return std::max(1, static_cast<int>(std::ceil(span / kPart)));
  }

  // Beside things but with none of their faces near: no line from a point to a corner is stopped.
  void find_clear_cells() {
    const geom::Grid& g = nodes_.grid;
    const double height = ground_.body().crouch;
    const std::vector<std::uint8_t> near = near_things(model_, g, height);
    if (near.empty()) return;
    clear_.assign(g.size(), 0);
    for (int j = 0; j + 1 < g.ny; ++j)
      for (int i = 0; i + 1 < g.nx; ++i) {
        const std::size_t n = g.index(i, j), above = g.index(i, j + 1);
        const bool away =
            near[n] == 0 && near[n + 1] == 0 && near[above] == 0 && near[above + 1] == 0;
        clear_[n] = away && flat_enough(model_.ground, i, j, height) ? 1 : 0;
      }
  }

  // The k-th of `count` strips across `axis`.
  static geom::Convex between(const geom::Convex& whole, Vec2 axis, double from, double to, int k,
                              int count) {
    const double low = from + (to - from) * k / count, high = from + (to - from) * (k + 1) / count;
    const geom::Convex above = geom::clip_to(whole, [&](Vec2 p) { return dot(p, axis) - low; });
    return geom::clip_to(above, [&](Vec2 p) { return high - dot(p, axis); });
  }

  void judge(const geom::Convex& piece, const geom::Linear& height, bool in_sight,
             LivingAreas& sums) const {
    const Vec2 p = middle(piece);
    const Whose whose = whose_at(p, in_sight);
    if (whose == Whose::nobody || !ground_.can_stand(p, height(p), height.g)) return;
    (whose == Whose::own ? sums.own_m2 : sums.beyond_m2) += geom::area(piece);
  }

  // By the corners of the cell, those in sight where a thing may stand between.
  Whose whose_at(Vec2 p, bool in_sight) const {
    const int i = column(p.x), j = row(p.y);
    const bool asked = in_sight && (clear_.empty() || clear_[nodes_.grid.index(i, j)] == 0);
    Whose whose = Whose::nobody;
    for (const auto& [a, b] : {std::pair{i, j}, {i + 1, j}, {i, j + 1}, {i + 1, j + 1}}) {
      const std::size_t n = nodes_.grid.index(a, b);
      if (nodes_.live[n] == 0 && (nodes_.beyond[n] == 0 || whose == Whose::beyond)) continue;
      if (asked && !clear_between(model_, p, nodes_.grid.node(a, b), ground_.body().crouch))
        continue;
      if (nodes_.live[n] != 0) return Whose::own;
      whose = Whose::beyond;
    }
    return whose;
  }

  const Model& model_;
  const UsableGround& ground_;
  const Nodes& nodes_;
  std::vector<std::uint8_t> beside_;  // by cell, at its lower left node
  std::vector<std::uint8_t> clear_;   // likewise; empty where it is not known of any
};

// The outline's triangles cut into strips of whole rows: work for one thread each, in fixed order.
std::vector<geom::Convex> strips(const Model& model) {
  const geom::Grid& g = model.ground.grid;
  std::vector<geom::Convex> out;
  for (const auto& [a, b, c] : geom::triangulate(model.outline)) {
    const geom::Convex whole{{model.outline[a], model.outline[b], model.outline[c]}, 3};
    for (int j = 0; j + 1 < g.ny; j += kTileRows) {
      const double y0 = g.y0 + j * g.cell;
      const double y1 = g.y0 + (j + kTileRows) * g.cell;
      geom::Convex strip = geom::clip_to(whole, [&](Vec2 p) { return p.y - y0; });
      if (j + kTileRows + 1 < g.ny) strip = geom::clip_to(strip, [&](Vec2 p) { return y1 - p.y; });
      if (strip.n >= 3) out.push_back(strip);
    }
  }
  return out;
}

LivingAreas areas_of(const Model& model, const UsableGround& ground, const Nodes& nodes) {
  const std::vector<geom::Convex> work = strips(model);
  std::vector<LivingAreas> areas(work.size());
  const Judge judge(model, ground, nodes);
  tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t k) {
    geom::overlay_with_ground(model.ground, work[k],
                              [&](const geom::Convex& piece, const geom::Linear& height) {
                                judge.add(piece, height, areas[k]);
                              });
  });
  LivingAreas total;
  for (const LivingAreas& a : areas) {
    total.own_m2 += a.own_m2;
    total.beyond_m2 += a.beyond_m2;
  }
  return total;
}

std::string bytes_of(const std::vector<std::uint8_t>& nodes) {
  return {nodes.begin(), nodes.end()};
}

}  // namespace

LivingAreas living_areas(const Model& model, const UsableGround& ground, const Nodes& nodes) {
  const auto work = [&] { return areas_of(model, ground, nodes); };
  if (!keeps(model, nodes.grid)) return work();
  const std::string question =
      question_of(model, ground, nodes.grid) + bytes_of(nodes.live) + bytes_of(nodes.beyond);
  return *model.kept->areas.find(question, work);
}

double living_area(const Model& model, const UsableGround& ground, const Nodes& nodes) {
  return living_areas(model, ground, nodes).own_m2;
}

double outdoor_area(const Model& model) {
  double indoors = 0.0;
  const auto yard =
      model.site.houses.empty() ? std::vector<geom::Triangle>{} : geom::triangulate(model.outline);
  for (const House& house : model.site.houses) {
    Polygon walls = house.outline;
    if (geom::signed_area(walls) < 0.0) std::reverse(walls.begin(), walls.end());
    for (const auto& [a, b, c] : geom::triangulate(walls))
      for (const auto& [d, e, f] : yard)
        indoors += geom::area(
            geom::clip_to_triangle(geom::Convex{{walls[a], walls[b], walls[c]}, 3},
                                   {model.outline[d], model.outline[e], model.outline[f]}));
  }
  return std::abs(geom::signed_area(model.outline)) - indoors;
}

}  // namespace hummock::usable
