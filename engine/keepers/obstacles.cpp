#include "engine/keepers/obstacles.h"

#include <algorithm>
#include <cmath>

#include "geometry/mesh/level_cut.h"
#include "geometry/plan/polygon.h"

namespace hummock::keepers {
namespace {

constexpr double kCell = 0.5;  // m; numeric, a setting

int cell_of(double v) {
  return static_cast<int>(std::floor(v / kCell));
}

std::uint64_t key_of(int i, int j) {
  return static_cast<std::uint64_t>(static_cast<std::uint32_t>(i)) << 32U |
         static_cast<std::uint32_t>(j);
}

bool is_leafy(const Part& part) {
  return part.kind == PartKind::planting || part.kind == PartKind::crown ||
         (part.kind == PartKind::surrounding && part.leaf_density > 0.0);
}

// Posts of the fence stand between panels, which are asked; those of a gate are not in its width.
bool stands_in_the_way(const Part& part) {
  if (part.kind == PartKind::ground || part.kind == PartKind::water || part.kind == PartKind::post)
    return false;
  return part.blocks_body || is_leafy(part);
}

bool reaches(const geom::LevelFace& ring, Vec2 p, double radius) {
  bool left = ring.size > 2, right = ring.size > 2;
  for (std::size_t k = 0; k < ring.size; ++k) {
    const Vec2 a = xy(ring.corners[k]), b = xy(ring.corners[(k + 1) % ring.size]);
    if (geom::distance_to_segment(p, a, b) < radius) return true;
    const double side = cross(b - a, p - a);
    left = left && side > 0.0;
    right = right && side < 0.0;
  }
  return left || right;
}

// Height of the face's plane at p, where p is on its plan.
bool height_on(Vec3 a, Vec3 b, Vec3 c, Vec2 p, double& height) {
  const double area = cross(xy(b) - xy(a), xy(c) - xy(a));
  if (area == 0.0) return false;
  const double u = cross(p - xy(a), xy(c) - xy(a)) / area;
  const double v = cross(xy(b) - xy(a), p - xy(a)) / area;
  if (u < 0.0 || v < 0.0 || u + v > 1.0) return false;
  height = a.z + (b.z - a.z) * u + (c.z - a.z) * v;
  return true;
}

}  // namespace

bool LeftOut::holds(int part) const {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

Obstacles::Obstacles(const Model& model) {
  for (std::size_t k = 0; k < model.parts.size(); ++k)
    if (stands_in_the_way(model.parts[k])) add(model.parts[k], static_cast<int>(k));
}

void Obstacles::add(const Part& part, int index) {
  for (const geom::Triangle& t : part.mesh.triangles) {
    const Vec3 a = part.mesh.vertices[t[0]], b = part.mesh.vertices[t[1]],
               c = part.mesh.vertices[t[2]];
    geom::Box3 box;
    for (const Vec3& v : {a, b, c}) box.add(v);
    const bool leafy = is_leafy(part);
    const bool top = cross(xy(b) - xy(a), xy(c) - xy(a)) > 0.0;
    const auto at = static_cast<std::uint32_t>(faces_.size());
    faces_.push_back({a, b, c, box.lo.z, box.hi.z, index, leafy, part.closed && !leafy && top});
    for (int i = cell_of(box.lo.x); i <= cell_of(box.hi.x); ++i)
      for (int j = cell_of(box.lo.y); j <= cell_of(box.hi.y); ++j)
        cells_[key_of(i, j)].push_back(at);
  }
}

template <class Use>
void Obstacles::near(Vec2 lo, Vec2 hi, const Use& use) const {
  for (int i = cell_of(lo.x); i <= cell_of(hi.x); ++i)
    for (int j = cell_of(lo.y); j <= cell_of(hi.y); ++j) {
      const auto cell = cells_.find(key_of(i, j));
      if (cell == cells_.end()) continue;
      for (const std::uint32_t at : cell->second) use(faces_[at]);
    }
}

int Obstacles::in_the_disc(Vec2 p, double radius, double low, double leafy, double high,
                           Leaves leaves, const LeftOut& out) const {
  int first = -1;
  const Vec2 r{radius, radius};
  near(p - r, p + r, [&](const Face& f) {
    const double from = f.leafy ? leafy : low;
    if (f.highest <= from || f.lowest >= high || (first >= 0 && f.part >= first)) return;
    if ((f.leafy && leaves == Leaves::open) || out.holds(f.part)) return;
    geom::LevelFace face;
    for (const Vec3& v : {f.a, f.b, f.c}) face.add(v);
    const geom::LevelFace ring = geom::between_levels(face, from, high);
    if (ring.size > 0 && reaches(ring, p, radius)) first = f.part;
  });
  return first;
}

double Obstacles::top_at(Vec2 p, double most, const LeftOut& out) const {
  double highest = -1e300;
  near(p, p, [&](const Face& f) {
    double height = 0.0;
    if (!f.carries || f.lowest > most || f.highest <= highest || out.holds(f.part)) return;
    if (height_on(f.a, f.b, f.c, p, height) && height <= most) highest = std::max(highest, height);
  });
  return highest;
}

}  // namespace hummock::keepers
