#include "engine/stations/lamps.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/model/climbed.h"
#include "engine/species/doubt.h"
#include "engine/stations/stations.h"
#include "geometry/mesh/mesh_distance.h"
#include "geometry/plan/node_range.h"

namespace hummock::stations {
namespace {

// How far the animal's body goes from where it stands or holds on.
double stretch(const Body& body) {
  return std::max(body.height, body.reach);
}

bool in_a_shelter(const usable::UsableGround& ground, Vec2 p) {
  const auto& shelters = ground.shelters();
  return std::any_of(shelters.begin(), shelters.end(),
                     [&](const Polygon& outline) { return geom::contains(outline, p); });
}

bool has_a_top(PartKind kind) {
  return kind == PartKind::object || kind == PartKind::den || kind == PartKind::house;
}

// Heights it may stand at over a point.
std::vector<double> feet_at(const Model& model, const usable::UsableGround& ground, Vec2 p) {
  constexpr double kFarUp = 1e4;     // m
  constexpr double kClear = 0.5e-3;  // m
  std::vector<double> feet;
  const double z = geom::height_at(model.ground, p);
  if (in_a_shelter(ground, p)) feet.push_back(z);
  const usable::Being being = ground.being_at(p, z);
  if (being == usable::Being::on_ground) feet.push_back(z);
  if (being == usable::Being::afloat) feet.push_back(z + ground.water_depth(p, z));
  if (!model.body_scene) return feet;
  for (const geom::Hit& hit :
       model.body_scene->all_hits({{p.x, p.y, z + kClear}, {0.0, 0.0, 1.0}, 0.0, kFarUp})) {
    if (hit.id == kGroundId || hit.normal.z <= 0.0) continue;
    if (has_a_top(model.parts[static_cast<std::size_t>(hit.id)].kind))
      feet.push_back(z + kClear + hit.t);
  }
  return feet;
}

double to_box(const geom::Box3& box, Vec3 p) {
  const Vec3 in{std::clamp(p.x, box.lo.x, box.hi.x), std::clamp(p.y, box.lo.y, box.hi.y),
                std::clamp(p.z, box.lo.z, box.hi.z)};
  return geom::distance(in, p);
}

// From the climbed faces, the surfaces alone; a crown is as its box.
double to_climbed(const Model& model, Vec3 lamp, double within) {
  constexpr double kPoint = 1e-6;  // m: a triangle as small as a point
  geom::Mesh point;
  point.vertices = {lamp, lamp + Vec3{kPoint, 0.0, 0.0}, lamp + Vec3{0.0, kPoint, 0.0}};
  point.triangles = {{0, 1, 2}};
  const geom::MeshTree at(point);
  double least = within;
  for (const Part& part : model.parts) {
    if (part.mesh.empty()) continue;
    if (part.kind == PartKind::crown && climbs(model.site.species, Surface::bark))
      least = std::min(least, to_box(geom::bounds(part.mesh), lamp));
    if (!part.blocks_body) continue;
    if (!part.climbable && !climbs(model.site.species, part.surface)) continue;
    least = std::min(least, geom::nearest(at, geom::MeshTree(part.mesh), least).distance);
  }
  return least;
}

// A leap at its careful end: the file's, or that of a leap nobody has shown.
double most_of(const Sourced<double>& leap) {
  return careful_end(leap, kStrongerLeap).value_or(leap.value);
}
// In proportion to the height, or its own careful end where that is more.
double far_of(const Species& s, double height) {
  const double of_height = s.leap_height.value > 0.0 ? height / s.leap_height.value : 1.0;
  return std::max(most_of(s.leap_distance), s.leap_distance.value * of_height);
}

// What is told of a lamp, place after place.
class Nearest {
 public:
  Nearest(const Model& model, const usable::UsableGround& ground, Vec3 lamp)
      : lamp_(lamp),
        tall_(stretch(ground.body())),
        height_(most_of(model.site.species.leap_height)),
        distance_(far_of(model.site.species, height_)) {}

  // Farther off on plan no place matters.
  double sought() const { return std::max(kLampSought, distance_ + tall_); }

  // It may stand there with its feet from `low` to `high`, so far off on plan.
  void stands(double off, double low, double high) {
    const double above = lamp_.z - (high + tall_);
    const double up = std::max({0.0, above, low - lamp_.z});
    out_.clearance_m = std::min(out_.clearance_m, std::hypot(off, up));
    out_.leapt_at = out_.leapt_at || leaps(off, above);
  }
  // It may hold on so near, whichever way.
  void holds_on(double off) {
    out_.clearance_m = std::min(out_.clearance_m, std::max(0.0, off - tall_));
    out_.leapt_at = out_.leapt_at || off - tall_ <= std::max(height_, distance_);
  }
  const LampWay& way() const { return out_; }

 private:
  // As engine/usable/hops.h: the least effort with which a leap passes the point, whatever stands
  // between. Nothing is known of a leap without a height or a distance.
  bool leaps(double off, double above) const {
    if (!(height_ > 0.0) || !(distance_ > 0.0)) return off <= 0.0 && above <= 0.0;
    const double x = 2.0 * height_ / distance_ * off;
    return 0.5 * (above + std::hypot(above, x)) <= height_;
  }

  Vec3 lamp_;
  double tall_, height_, distance_;
  LampWay out_{kLampSought, false};
};

void add_fence_tops(const Model& model, Vec3 lamp, Nearest& nearest) {
  for (const Panel& p : model.panels)
    nearest.stands(geom::distance_to_segment(geom::xy(lamp), p.a, p.b), std::min(p.top_a, p.top_b),
                   std::max(p.top_a, p.top_b));
}

double off_on_plan(Vec2 p, const std::array<Vec2, 3>& corners) {
  if (geom::contains({corners.begin(), corners.end()}, p)) return 0.0;
  double least = geom::distance_to_segment(p, corners[2], corners[0]);
  for (std::size_t k = 0; k + 1 < corners.size(); ++k)
    least = std::min(least, geom::distance_to_segment(p, corners[k], corners[k + 1]));
  return least;
}

// Face by face, as a thing may be narrower than a cell: at the highest corner of each.
void add_tops(const Model& model, Vec3 lamp, Nearest& nearest) {
  for (const Part& part : model.parts) {
    if (!has_a_top(part.kind)) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      const Vec3 a = part.mesh.vertices[t[0]], b = part.mesh.vertices[t[1]],
                 c = part.mesh.vertices[t[2]];
      if (cross(b - a, c - a).z <= 0.0) continue;
      const double off = off_on_plan(geom::xy(lamp), {geom::xy(a), geom::xy(b), geom::xy(c)});
      if (off > nearest.sought()) continue;
      nearest.stands(off, std::min({a.z, b.z, c.z}), std::max({a.z, b.z, c.z}));
    }
  }
}

void add_places(const Model& model, const usable::UsableGround& ground, Vec3 lamp,
                Nearest& nearest) {
  const geom::Grid& g = model.ground.grid;
  const double half = std::sqrt(0.5) * g.cell;  // a node stands for its cell
  const double within = nearest.sought() + half;
  const Vec2 about{within, within};
  const geom::NodeRange range =
      geom::nodes_about(g, geom::xy(lamp) - about, geom::xy(lamp) + about);
  for (int j = range.j0; j <= range.j1; ++j)
    for (int i = range.i0; i <= range.i1; ++i) {
      const Vec2 p = g.node(i, j);
      const double off = geom::distance(p, geom::xy(lamp));
      if (off > within) continue;
      for (const double foot : feet_at(model, ground, p))
        nearest.stands(std::max(0.0, off - half), foot, foot);
    }
}

}  // namespace

LampWay lamp_way(const Model& model, const usable::UsableGround& ground, Vec3 lamp) {
  Nearest nearest(model, ground, lamp);
  const double within = nearest.sought() + stretch(ground.body());
  const double climbed = to_climbed(model, lamp, within);
  if (climbed < within) nearest.holds_on(climbed);
  add_fence_tops(model, lamp, nearest);
  add_tops(model, lamp, nearest);
  add_places(model, ground, lamp, nearest);
  return nearest.way();
}

}  // namespace hummock::stations
