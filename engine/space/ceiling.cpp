#include "engine/space/ceiling.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "geometry/mesh/convex_piece.h"
#include "geometry/plan/plan_boxes.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock::space {
namespace {

constexpr double kSamePlace = 1e-6;  // m

// A post between corners, moved a hair inwards: only to choose triangles by. Posts lie on the
// edge's line but for rounding; one that rounding puts outwards would leave a sliver between it and
// its neighbours, upright in space. On an inward bow every post is a notch and none can.
Vec2 bowed(const Model& model, Vec2 post) {
  const geom::NearestOnEdge on = geom::nearest_on_edges(model.outline, post);
  const auto k = static_cast<std::size_t>(on.edge);
  const Vec2 along = model.outline[(k + 1) % model.outline.size()] - model.outline[k];
  const double t = on.along / length(along);
  return post + geom::left_of(along) * (1e-7 * t * (1.0 - t));
}

// Post by post round the outline.
geom::Mesh fence_top_surface(const Model& model) {
  geom::Mesh out;
  const std::size_t n = model.panels.size();
  geom::Polygon ring;
  for (std::size_t k = 0; k < n; ++k) {
    const Panel& before = model.panels[(k + n - 1) % n];
    const Panel& panel = model.panels[k];
    const bool joined = geom::distance(before.b, panel.a) < kSamePlace;
    if (!joined) {
      ring.push_back(bowed(model, before.b));
      out.vertices.push_back(geom::at_height(before.b, before.top_b));
    }
    ring.push_back(bowed(model, panel.a));
    const double top = joined ? 0.5 * (before.top_b + panel.top_a) : panel.top_a;
    out.vertices.push_back(geom::at_height(panel.a, top));
  }
  out.triangles = geom::triangulate(ring);
  return out;
}

geom::Mesh roof_sheet(const Model& model) {
  geom::Mesh soup;
  for (const Part& part : model.parts)
    if (part.kind == PartKind::roof) append(soup, part.mesh);
  geom::Mesh sheet = geom::weld(soup, 1e-9);
  for (geom::Triangle& t : sheet.triangles) {
    const geom::Vec2 a = xy(sheet.vertices[t[0]]);
    if (cross(xy(sheet.vertices[t[1]]) - a, xy(sheet.vertices[t[2]]) - a) < 0.0)
      std::swap(t[1], t[2]);
  }
  return sheet;
}

double plan_area(const geom::Mesh& sheet) {
  double twice = 0.0;
  for (const auto& [a, b, c] : sheet.triangles)
    twice += cross(xy(sheet.vertices[b]) - xy(sheet.vertices[a]),
                   xy(sheet.vertices[c]) - xy(sheet.vertices[a]));
  return 0.5 * twice;
}

std::array<Vec2, 3> plan_corners(const geom::Mesh& mesh, const geom::Triangle& t) {
  return {xy(mesh.vertices[t[0]]), xy(mesh.vertices[t[1]]), xy(mesh.vertices[t[2]])};
}

geom::Box2 box_of(const std::array<Vec2, 3>& corners) {
  geom::Box2 box;
  for (const Vec2 p : corners) box.add(p);
  return box;
}

std::vector<geom::Box2> plan_boxes(const geom::Mesh& mesh) {
  std::vector<geom::Box2> boxes;
  for (const geom::Triangle& t : mesh.triangles) boxes.push_back(box_of(plan_corners(mesh, t)));
  return boxes;
}

void append_piece(geom::Mesh& out, const geom::Convex& piece, const geom::Linear& height) {
  const auto first = static_cast<std::uint32_t>(out.vertices.size());
  for (int v = 0; v < piece.n; ++v)
    out.vertices.push_back(geom::at_height(piece[v], height(piece[v])));
  for (std::uint32_t v = 1; v + 1 < static_cast<std::uint32_t>(piece.n); ++v)
    out.triangles.push_back({first, first + v, first + v + 1});
}

// The part of `sheet` within the plan of `over`, at the heights of `sheet`.
geom::Mesh within(const geom::Mesh& sheet, const geom::Mesh& over) {
  geom::Mesh out;
  const geom::PlanBoxes boxes(plan_boxes(over));
  for (const auto& [a, b, c] : sheet.triangles) {
    const auto t = geom::plan_of(sheet.vertices[a], sheet.vertices[b], sheet.vertices[c]);
    if (t.up == 0) continue;
    for (const std::size_t o : boxes.meeting(box_of(plan_corners(sheet, {a, b, c}))))
      append_piece(out, geom::clip_to_triangle(t.convex, plan_corners(over, over.triangles[o])),
                   t.height);
  }
  return out;
}

// A convex piece less a triangle, as convex pieces appended to `out`.
void take_off(const geom::Convex& piece, const std::array<Vec2, 3>& triangle,
              std::vector<geom::Convex>& out) {
  if (geom::area(geom::clip_to_triangle(piece, triangle)) <= 0.0) {
    out.push_back(piece);
    return;
  }
  geom::Convex rest = piece;
  for (std::size_t k = 0; k < 3 && rest.n > 0; ++k) {
    const Vec2 a = triangle[k];
    const Vec2 b = triangle[(k + 1) % 3];
    const geom::Convex beyond = geom::clip_to_left(rest, b, a);
    if (geom::area(beyond) > 0.0) out.push_back(beyond);
    rest = geom::clip_to_left(rest, a, b);
  }
}

// The part of `sheet` outside the plan of `over`, at the heights of `sheet`.
geom::Mesh outside(const geom::Mesh& sheet, const geom::Mesh& over) {
  geom::Mesh out;
  const geom::PlanBoxes boxes(plan_boxes(over));
  for (const auto& [a, b, c] : sheet.triangles) {
    const auto t = geom::plan_of(sheet.vertices[a], sheet.vertices[b], sheet.vertices[c]);
    if (t.up == 0) continue;
    std::vector<geom::Convex> pieces{t.convex};
    for (const std::size_t o : boxes.meeting(box_of(plan_corners(sheet, {a, b, c})))) {
      std::vector<geom::Convex> left;
      for (const geom::Convex& piece : pieces)
        take_off(piece, plan_corners(over, over.triangles[o]), left);
      pieces.swap(left);
    }
    for (const geom::Convex& piece : pieces) append_piece(out, piece, t.height);
  }
  return out;
}

geom::Mesh outline_sheet(const Model& model) {
  geom::Mesh out;
  for (const Vec2 p : model.outline) out.vertices.push_back(geom::at_height(p, 0.0));
  out.triangles = geom::triangulate(model.outline);
  return out;
}

}  // namespace

Ceiling find_ceiling(const Model& model) {
  Ceiling out;
  const double area = geom::signed_area(model.outline);
  const double slack = 1e-6 * area;
  out.fence_tops = fence_top_surface(model);
  out.roof = roof_sheet(model);
  if (!out.roof.empty()) {
    const geom::Mesh inside = within(out.roof, outline_sheet(model));
    const double roofed = plan_area(inside);
    if (roofed > area + slack) {
      out.unknown = "the roof lies over itself in plan";
      return out;
    }
    out.roofed_share = std::min(1.0, roofed / area);
    out.whole_roof = std::abs(plan_area(out.roof) - area) < slack && roofed > area - slack;
    out.sheets.push_back(out.whole_roof ? out.roof : inside);
    if (roofed > area - slack) return out;
  }
  if (std::abs(plan_area(out.fence_tops) - area) > slack) {
    out.sheets.clear();
    out.unknown = "the fence does not run round the whole outline";
    return out;
  }
  out.sheets.push_back(out.roof.empty() ? out.fence_tops : outside(out.fence_tops, out.roof));
  return out;
}

Air measure_air(const Model& model, const Ceiling& ceiling) {
  Air out;
  out.least_m = 1e300;
  for (const geom::Mesh& sheet : ceiling.sheets) {
    const geom::AirSums sums = geom::air_between(model.ground, sheet);
    out.plan_area_m2 += sums.plan_area_m2;
    out.volume_m3 += sums.volume_m3;
    out.gap_m3 += sums.gap_m3;
    out.least_m = std::min(out.least_m, sums.least_m);
  }
  return out;
}

double volume_in_air(const Model& model, const Ceiling& ceiling,
                     const std::vector<geom::Mesh>& solids) {
  const std::vector<geom::SheetAbove> sheets(ceiling.sheets.begin(), ceiling.sheets.end());
  std::vector<double> volumes(solids.size(), 0.0);
  tbb::parallel_for(std::size_t{0}, solids.size(), [&](std::size_t k) {
    for (const geom::SheetAbove& sheet : sheets)
      volumes[k] += geom::volume_in_air(model.ground, sheet, solids[k]);
  });
  return std::accumulate(volumes.begin(), volumes.end(), 0.0);
}

}  // namespace hummock::space
