#include "engine/space/space.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/space/ceiling.h"
#include "engine/space/free_shapes.h"
#include "engine/space/furniture.h"
#include "engine/usable/usable_area.h"

namespace hummock::space {
namespace {

struct Stretch {
  double from = 0.0;
  double to = 0.0;
};

// Length of the union of stretches.
double covered(std::vector<Stretch> stretches) {
  std::sort(stretches.begin(), stretches.end(),
            [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  double total = 0.0;
  double reach = -1e300;
  for (const Stretch& s : stretches) {
    total += std::max(0.0, s.to - std::max(s.from, reach));
    reach = std::max(reach, s.to);
  }
  return total;
}

// Metres of one of the file's edges through which guests see in.
double guest_length(const Site& site, int edge, double length) {
  std::vector<Stretch> seen;
  for (const Section& section : site.boundary.sections)
    if (section.guest_view &&
        std::find(section.edges.begin(), section.edges.end(), edge) != section.edges.end())
      seen.push_back({0.0, length});
  for (const Viewing& viewing : site.viewings)
    if (viewing.edge == edge)
      seen.push_back({std::max(0.0, viewing.from), std::min(length, viewing.from + viewing.width)});
  return covered(std::move(seen));
}

void set_boundary(Result& out, const Model& model) {
  double seen = 0.0;
  const std::size_t n = model.outline.size();
  for (std::size_t k = 0; k < n; ++k) {
    const double length = geom::distance(model.outline[k], model.outline[(k + 1) % n]);
    out.boundary_length_m += length;
    seen += guest_length(model.site, model.edge_of[k], length);
  }
  out.guest_view_share = seen / out.boundary_length_m;
}

void set_usable(Result& out, const Model& model) {
  const usable::UsableGround ground(model);
  const usable::Nodes nodes = usable::find_nodes(model, ground);
  const usable::LivingAreas areas = usable::living_areas(model, ground, nodes);
  out.usable_area_m2 = areas.own_m2;
  out.out_of_reach_m2 = areas.beyond_m2;
  out.shapes = free_shapes(model, ground, nodes, out.shapes);
  out.largest_circle = out.shapes->circle;
  out.largest_rectangle = out.shapes->rectangle;
}

std::string missing(const Furniture& furniture) {
  if (furniture.open.empty()) return furniture.failed;
  std::string names;
  for (const std::string& name : furniture.open)
    names += (names.empty() ? "'" : ", '") + name + "'";
  return "not closed, so what it takes of the air is not known: " + names;
}

void set_air(Result& out, const Model& model, const Ceiling& ceiling) {
  const Air air = measure_air(model, ceiling);
  out.least_headroom_m = air.least_m;
  out.mean_headroom_m = air.gap_m3 / air.plan_area_m2;
  out.roofed_share = ceiling.roofed_share;
  out.roofed = ceiling.roofed_share > 0.0;
  const Furniture furniture = find_furniture(model);
  out.furniture_m3 = volume_in_air(model, ceiling, furniture.solids);
  out.volume_note = missing(furniture);
  out.volume_known = out.volume_note.empty();
  if (out.volume_known) out.volume_m3 = air.volume_m3 - out.furniture_m3;
  if (air.least_m < 0.0 && out.volume_known)
    out.volume_note = "the ground stands above the fence-top surface in places; no air there";
}

}  // namespace

Result analyse(const Model& model) {
  Result out;
  const geom::SurfaceSums sums = geom::surface_sums(model.ground, model.outline, 0.0);
  out.plan_area_m2 = geom::signed_area(model.outline);
  out.surface_area_m2 = sums.surface_area_m2;
  out.outdoor_area_m2 = usable::outdoor_area(model);
  set_usable(out, model);
  set_boundary(out, model);
  const Ceiling ceiling = find_ceiling(model);
  if (ceiling.unknown.empty()) {
    set_air(out, model, ceiling);
  } else {
    out.volume_note = ceiling.unknown;
    out.least_headroom_m = std::numeric_limits<double>::quiet_NaN();
    out.mean_headroom_m = std::numeric_limits<double>::quiet_NaN();
  }
  return out;
}

Result with_another_body(const Model& model, Result known) {
  set_usable(known, model);
  return known;
}

}  // namespace hummock::space
