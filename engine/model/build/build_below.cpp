// What lies under the ground along the fence. All of it is laid from the ground as designed and
// runs on under the gates, as a threshold.
#include <algorithm>
#include <cmath>

#include "engine/model/build/bays.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/build/corner_cut.h"
#include "engine/model/build/wall_mesh.h"
#include "engine/model/optics.h"
#include "engine/model/shapes/solids.h"

namespace hummock {
namespace {

struct Edge {
  int index = 0;
  Vec2 a, b;
};

std::vector<Edge> edges_of_section(const Model& model, std::size_t section) {
  std::vector<Edge> edges;
  for (int file_edge : model.site.boundary.sections[section].edges) {
    const int k = model_edge(model, file_edge);
    if (k < 0) continue;
    const auto i = static_cast<std::size_t>(k);
    edges.push_back({k, model.outline[i], model.outline[(i + 1) % model.outline.size()]});
  }
  return edges;
}

const Section& section_of_edge(const Model& model, int edge) {
  const int n = static_cast<int>(model.edge_of.size());
  const int file_edge = model.edge_of[static_cast<std::size_t>((edge + n) % n)];
  return model.site.boundary
      .sections[static_cast<std::size_t>(section_of(model.site.boundary, file_edge))];
}

Part buried_part(const Section& section, std::size_t index, PartKind kind) {
  Part part;
  part.name = section.name;
  part.kind = kind;
  part.source = static_cast<int>(index);
  const SheetKind sheet = section.kind == SheetKind::mesh ? SheetKind::mesh : SheetKind::solid;
  set_sheet(part, sheet, section.aperture, section.wire);
  return part;
}

void build_skirt(Model& model, std::size_t s) {
  const Section& section = model.site.boundary.sections[s];
  if (section.buried <= 0.0) return;
  Part part = buried_part(section, s, PartKind::skirt);
  for (const Edge& e : edges_of_section(model, s)) {
    Wall wall = wall_on_ground(model.ground, e.a, e.b, 0.0, 0.0);
    for (std::size_t k = 0; k + 1 < wall.along.size(); ++k) {
      const Vec2 p = geom::lerp(e.a, e.b, wall.along[k]);
      const Vec2 q = geom::lerp(e.a, e.b, wall.along[k + 1]);
      geom::append_quad(part.mesh, at_height(p, wall.foot[k] - section.buried),
                        at_height(q, wall.foot[k + 1] - section.buried),
                        at_height(q, wall.foot[k + 1]), at_height(p, wall.foot[k]));
    }
  }
  part.mesh = geom::weld(part.mesh, 0.0);
  model.parts.push_back(std::move(part));
}

// Plan width of an edge's apron, positive inwards.
std::optional<double> apron_reach(const Section& section, Side side) {
  if (!section.apron || section.apron->side != side) return std::nullopt;
  return side == Side::inside ? section.apron->length : -section.apron->length;
}

geom::Polygon apron_outline(const Model& model, const Edge& e, const Apron& apron) {
  const double reach = apron.side == Side::inside ? apron.length : -apron.length;
  const EndCuts cuts = end_cuts(model.outline, e.index, reach,
                                apron_reach(section_of_edge(model, e.index - 1), apron.side),
                                apron_reach(section_of_edge(model, e.index + 1), apron.side));
  const Vec2 along = geom::unit(e.b - e.a);
  const Vec2 off = geom::left_of(along) * reach;
  const double start = cuts.start_lean * apron.length;
  const double end = geom::distance(e.a, e.b) + cuts.end_lean * apron.length;
  if (end > start) return {e.a, e.b, e.a + along * end + off, e.a + along * start + off};
  // The two cuts meet before the full width: a triangle.
  const double u = geom::distance(e.a, e.b) / (start - end + geom::distance(e.a, e.b));
  return {e.a, e.b, e.a + along * (start * u) + off * u};
}

void build_apron(Model& model, std::size_t s) {
  const Section& section = model.site.boundary.sections[s];
  if (!section.apron) return;
  Part part = buried_part(section, s, PartKind::apron);
  for (const Edge& e : edges_of_section(model, s)) {
    geom::Polygon outline = apron_outline(model, e, *section.apron);
    if (geom::signed_area(outline) < 0.0) outline = {outline.rbegin(), outline.rend()};
    geom::Mesh sheet = draped(model.ground, outline);
    for (Vec3& v : sheet.vertices) v.z -= section.apron->depth;
    geom::append(part.mesh, sheet);
  }
  model.parts.push_back(std::move(part));
}

// The footing's cross-section at one station, and where its sides stand in plan.
struct Station {
  Vec2 right, left;
  double ground = 0.0;  // on the line
};

constexpr double kCover = 0.01;  // m

// Plan points of the footing's two sides at an outline corner, mitred; at most half an edge back.
Station corner_station(const Model& model, std::size_t corner, double half) {
  const std::size_t n = model.outline.size();
  const Vec2 p0 = model.outline[(corner + n - 1) % n];
  const Vec2 p1 = model.outline[corner % n];
  const Vec2 p2 = model.outline[(corner + 1) % n];
  const double room = 0.5 * std::min(geom::distance(p0, p1), geom::distance(p1, p2));
  const auto side = [&](double d) {
    const Vec2 m = geom::mitre(p0, p1, p2, d, d, 3.0) - p1;
    return p1 + m * std::min(1.0, room / std::max(geom::length(m), 1e-9));
  };
  return {side(-half), side(half), geom::height_at(model.ground, p1)};
}

std::vector<Station> stations(const Model& model, const Edge& e, double half) {
  const auto k = static_cast<std::size_t>(e.index);
  std::vector<Station> list{corner_station(model, k, half)};
  const Station last = corner_station(model, k + 1, half);
  const Vec2 along = geom::unit(e.b - e.a);
  const Vec2 off = geom::left_of(along) * half;
  const auto clear_of = [&](const Station& end, Vec2 p, double way) {
    return way * dot(along, p - end.left) > 1e-6 && way * dot(along, p - end.right) > 1e-6;
  };
  for (double t : geom::ground_breaks(model.ground, e.a, e.b)) {
    const Vec2 p = geom::lerp(e.a, e.b, t);
    if (!clear_of(list.front(), p, 1.0) || !clear_of(last, p, -1.0)) continue;
    list.push_back({p - off, p + off, geom::height_at(model.ground, p)});
  }
  list.push_back(last);
  return list;
}

// A closed trench of concrete through the stations.
geom::Mesh footing_solid(const geom::Heightfield& ground, const std::vector<Station>& list,
                         double depth) {
  geom::Mesh sheet;
  for (const Station& s : list) {
    sheet.vertices.push_back(at_height(s.right, s.ground));
    sheet.vertices.push_back(at_height(s.left, s.ground));
  }
  for (std::uint32_t k = 0; k + 1 < list.size(); ++k) {
    const std::uint32_t r = 2 * k;
    sheet.triangles.push_back({r, r + 2, r + 3});
    sheet.triangles.push_back({r, r + 3, r + 1});
  }
  geom::Mesh solid = thickened(sheet, -depth, 0.0);
  // The first corners are the upper ones, right and left of each station in turn.
  for (std::size_t k = 0; k < list.size(); ++k) {
    const double lowest = std::min({list[k].ground, geom::height_at(ground, list[k].right),
                                    geom::height_at(ground, list[k].left)});
    const double top = std::max(lowest - kCover, list[k].ground - depth + kCover);
    solid.vertices[2 * k].z = solid.vertices[2 * k + 1].z = top;
  }
  return solid;
}

void build_footing(Model& model, std::size_t s) {
  const Section& section = model.site.boundary.sections[s];
  if (!section.footing) return;
  Part part;
  part.name = section.name;
  part.kind = PartKind::footing;
  part.source = static_cast<int>(s);
  part.closed = true;
  for (const Edge& e : edges_of_section(model, s)) {
    geom::append(part.mesh,
                 footing_solid(model.ground, stations(model, e, section.footing->width / 2),
                               section.footing->depth));
  }
  model.parts.push_back(std::move(part));
}

}  // namespace

void build_below_ground(Model& model) {
  for (std::size_t s = 0; s < model.site.boundary.sections.size(); ++s) {
    build_skirt(model, s);
    build_apron(model, s);
    build_footing(model, s);
  }
}

}  // namespace hummock
