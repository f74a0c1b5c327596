// The enclosed air as one closed solid.
#include <algorithm>

#include "engine/space/ceiling.h"
#include "engine/space/furniture.h"
#include "engine/space/space.h"
#include "geometry/mesh/boolean_cgal.h"
#include "geometry/mesh/column_solid.h"

namespace hummock::space {
namespace {

constexpr double kBeyond = 1.0;  // m by which helping solids overshoot

geom::Solid failed(std::string reason) {
  geom::Solid out;
  out.reason = std::move(reason);
  return out;
}

geom::Solid from(std::optional<geom::Mesh> mesh, const char* what) {
  if (!mesh || mesh->empty()) return failed(std::string(what) + " does not close");
  geom::Solid out;
  out.ok = true;
  out.mesh = std::move(*mesh);
  return out;
}

geom::Polygon ring_of(const geom::Mesh& sheet) {
  geom::Polygon ring;
  if (const auto loop = geom::boundary_loop(sheet))
    for (const std::uint32_t v : *loop) ring.push_back(xy(sheet.vertices[v]));
  return ring;
}

struct Span {
  double lo = 0.0, hi = 0.0;
};

Span heights(const Model& model, const Ceiling& ceiling) {
  const auto [lo, hi] = std::minmax_element(model.ground.z.begin(), model.ground.z.end());
  Span span{*lo, *hi};
  for (const geom::Mesh* mesh : {&ceiling.fence_tops, &ceiling.roof})
    for (const Vec3& v : mesh->vertices) span = {std::min(span.lo, v.z), std::max(span.hi, v.z)};
  return {span.lo - kBeyond, span.hi + kBeyond};
}

// All below the ceiling within the outline, down to `span.lo`; few triangles.
geom::Solid below_ceiling(const Model& model, const Ceiling& ceiling, const Span& span) {
  const geom::Polygon& outline = model.outline;
  const auto column_to = [&](const geom::Mesh& sheet, const geom::Polygon& ring) {
    return geom::solid_between(geom::flat_sheet(ring, span.lo), sheet, ring);
  };
  if (ceiling.whole_roof) return from(column_to(ceiling.roof, outline), "the roof's column");
  geom::Solid fence;
  if (ceiling.roofed_share < 1.0 - 1e-9)
    fence = from(column_to(ceiling.fence_tops, outline), "the column below the fence tops");
  if (ceiling.roof.empty()) return fence;
  const geom::Polygon ring = ring_of(ceiling.roof);
  if (ring.empty()) return failed("the roof has holes or several pieces");
  geom::Solid roofed = from(column_to(ceiling.roof, ring), "the roof's column");
  if (!roofed.ok) return roofed;
  roofed = geom::common_part(roofed.mesh, geom::prism_on(outline, span.lo - kBeyond, span.hi));
  if (!roofed.ok || ceiling.roofed_share >= 1.0 - 1e-9) return roofed;
  if (!fence.ok) return fence;
  const geom::Solid open =
      geom::subtract(fence.mesh, geom::prism_on(ring, span.lo - kBeyond, span.hi));
  return open.ok ? geom::unite({open.mesh, roofed.mesh}) : open;
}

// The ground down to below everything, over its whole grid, so that its sides stay clear of the
// walls when there is a margin.
geom::Solid ground_block(const Model& model, double floor) {
  const geom::Grid& g = model.ground.grid;
  const geom::Polygon ring{
      {g.x0, g.y0}, {g.x_max(), g.y0}, {g.x_max(), g.y_max()}, {g.x0, g.y_max()}};
  return from(
      geom::solid_between(geom::flat_sheet(ring, floor), geom::ground_mesh(model.ground), ring),
      "the ground's block");
}

// One closed mesh right away, when one sheet makes the ceiling and the ground stays below it.
std::optional<geom::Mesh> whole_column(const Model& model, const Ceiling& ceiling) {
  const bool one_sheet = ceiling.roof.empty() || ceiling.whole_roof;
  if (!one_sheet || measure_air(model, ceiling).least_m <= 0.0) return std::nullopt;
  return geom::solid_between(geom::ground_mesh(model.ground, model.outline), ceiling.sheets.front(),
                             model.outline);
}

geom::Solid build(const Model& model) {
  const Ceiling ceiling = find_ceiling(model);
  if (!ceiling.unknown.empty()) return failed(ceiling.unknown);
  Furniture furniture = find_furniture(model);
  if (!furniture.failed.empty()) return failed(furniture.failed);
  if (!furniture.open.empty()) return failed("'" + furniture.open.front() + "' is not closed");
  if (const auto column = whole_column(model, ceiling))
    return geom::subtract(*column, furniture.pieces);
  const Span span = heights(model, ceiling);
  geom::Solid below = below_ceiling(model, ceiling, span);
  if (!below.ok) return below;
  geom::Solid ground = ground_block(model, span.lo - 2.0 * kBeyond);
  if (!ground.ok) return ground;
  furniture.pieces.push_back(std::move(ground.mesh));
  return geom::subtract(below.mesh, furniture.pieces);
}

}  // namespace

geom::Mesh enclosed_air(const Model& model, std::string* note) {
  geom::Solid air = build(model);
  if (note != nullptr) *note = air.reason;
  return air.ok ? std::move(air.mesh) : geom::Mesh{};
}

}  // namespace hummock::space
