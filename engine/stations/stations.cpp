#include "engine/stations/stations.h"

#include <algorithm>
#include <cmath>

#include "engine/site/guest_lines.h"
#include "engine/site/station_place.h"
#include "engine/stations/comes_to.h"
#include "engine/stations/lamps.h"
#include "geometry/mesh/mesh.h"

namespace hummock::stations {
namespace {

// Where a line straight down meets the mesh first.
std::optional<double> top_of(const geom::Mesh& mesh, Vec2 p) {
  std::optional<double> top;
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]], b = mesh.vertices[t[1]], c = mesh.vertices[t[2]];
    const double whole = cross(geom::xy(b) - geom::xy(a), geom::xy(c) - geom::xy(a));
    if (whole == 0.0) continue;
    const double u = cross(geom::xy(b) - p, geom::xy(c) - p) / whole;
    const double v = cross(geom::xy(c) - p, geom::xy(a) - p) / whole;
    const double w = 1.0 - u - v;
    constexpr double kEdge = -1e-9;  // a point on an edge is on both of its triangles
    if (u < kEdge || v < kEdge || w < kEdge) continue;
    const double z = u * a.z + v * b.z + w * c.z;
    top = std::max(top.value_or(z), z);
  }
  return top;
}

// An object or a den of that name.
const Part* thing_named(const Model& model, const std::string& name) {
  for (const Part& part : model.parts)
    if (part.name == name && (part.kind == PartKind::object || part.kind == PartKind::den))
      return &part;
  return nullptr;
}

// The solid that stands at a point, by its name; nothing in a house or on free ground.
std::string solid_at(const Model& model, const usable::UsableGround& ground, Vec3 at) {
  const Vec2 p = geom::xy(at);
  for (const House& house : model.site.houses)
    if (geom::contains(house.outline, p)) return {};
  if (!ground.in_solid(p)) return {};
  for (const Part& part : model.parts) {
    if (!part.closed || !part.blocks_body) continue;
    const auto top = top_of(part.mesh, p);
    if (top && *top > at.z) return part.name;
  }
  return {};
}

StationRow placed(const Model& model, const usable::UsableGround& ground, int index) {
  const Station& s = model.site.stations[static_cast<std::size_t>(index)];
  StationRow row;
  row.station = index;
  const Vec2 p = station_place(model.site, s);
  row.at = geom::at_height(p, geom::height_at(model.ground, p) + s.z);
  if (s.on.empty()) {
    row.inside = solid_at(model, ground, row.at);
    return row;
  }
  const Part* thing = thing_named(model, s.on);
  const auto top = thing != nullptr ? top_of(thing->mesh, p) : std::nullopt;
  row.set_out = top.has_value();
  if (top) row.at.z = *top + s.z;
  return row;
}

StationKind kind_of(const Model& model, const StationRow& row) {
  return model.site.stations[static_cast<std::size_t>(row.station)].kind;
}
double apart(const StationRow& a, const StationRow& b) {
  return geom::distance(geom::xy(a.at), geom::xy(b.at));
}

void count(const Model& model, Result& out) {
  for (const StationRow& row : out.rows) {
    const StationKind kind = kind_of(model, row);
    KindRow& sums = out.kinds[static_cast<std::size_t>(kind)];
    const bool counts = row.set_out && (row.reached || !is_used(kind));
    sums.drawn += 1;
    sums.counts += counts ? 1 : 0;
    if (is_used(kind) && !counts) ++out.unreached;
  }
}

bool gives_water(StationKind kind) {
  return kind == StationKind::water_bowl || kind == StationKind::water_point;
}

void measure_apart(const Model& model, Result& out) {
  for (std::size_t k = 0; k < out.rows.size(); ++k)
    for (std::size_t other = 0; other < k; ++other) {
      const StationKind a = kind_of(model, out.rows[k]), b = kind_of(model, out.rows[other]);
      const double off = apart(out.rows[k], out.rows[other]);
      double& same = out.kinds[static_cast<std::size_t>(a)].apart_m;
      if (a == b) same = std::min(same, off);
      const bool food_and_water =
          (a == StationKind::food && gives_water(b)) || (b == StationKind::food && gives_water(a));
      if (food_and_water) out.food_to_water_m = std::min(out.food_to_water_m, off);
    }
}

void measure_to_guests(const Model& model, Result& out) {
  const std::vector<GuestLine> lines = guest_lines(model.site);
  out.guests = !lines.empty();
  for (StationRow& row : out.rows) {
    for (const GuestLine& line : lines)
      row.guests_m =
          std::min(row.guests_m, geom::distance_to_segment(geom::xy(row.at), line.a, line.b));
    out.guests_m = std::min(out.guests_m, row.guests_m);
    if (row.guests_m < kGuestsReach) ++out.in_guests_reach;
  }
}

void measure_lamps(const Model& model, const usable::UsableGround& ground, Result& out) {
  for (StationRow& row : out.rows) {
    if (kind_of(model, row) != StationKind::heat_lamp) continue;
    const LampWay way = lamp_way(model, ground, row.at);
    row.clearance_m = way.clearance_m;
    row.leapt_at = way.leapt_at;
    out.lamp_clearance_m = std::min(out.lamp_clearance_m, way.clearance_m);
    if (model.site.stations[static_cast<std::size_t>(row.station)].guard) continue;
    ++out.unguarded;
    out.unguarded_in_leap += way.leapt_at ? 1 : 0;
  }
}

}  // namespace

bool is_used(StationKind kind) {
  return kind != StationKind::heat_lamp && kind != StationKind::camera;
}

Result analyse(const Model& model) {
  Result out;
  if (model.site.stations.empty()) return out;
  const usable::UsableGround ground(model);
  const ComesTo comes_to(model);
  for (int k = 0; k < static_cast<int>(model.site.stations.size()); ++k) {
    StationRow row = placed(model, ground, k);
    const double reach = model.site.stations[static_cast<std::size_t>(k)].reach;
    row.reached = row.set_out && row.inside.empty() && comes_to(row.at, reach);
    out.rows.push_back(row);
  }
  count(model, out);
  measure_apart(model, out);
  measure_to_guests(model, out);
  measure_lamps(model, ground, out);
  return out;
}

}  // namespace hummock::stations
