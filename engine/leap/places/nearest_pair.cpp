#include "engine/leap/places/nearest_pair.h"

#include <algorithm>
#include <limits>

namespace hummock::leap {

using geom::Box3;
using geom::Vec3;

namespace {

class NearestSearch {
 public:
  NearestSearch(Measure measure, const Ability& ability, double below)
      : measure_(measure), ability_(ability) {
    best_.value = below;
  }

  void look(const Patch& from, const Patch& to, int number) {
    struct Pair {
      int a, b;
      double bound;
    };
    const double start = bound(from.tree[0], to.tree[0]);
    std::vector<Pair> open{{0, 0, start}};
    while (!open.empty()) {
      const Pair pair = open.back();
      open.pop_back();
      if (pair.bound >= best_.value) continue;
      const TreeNode& a = from.tree[static_cast<std::size_t>(pair.a)];
      const TreeNode& b = to.tree[static_cast<std::size_t>(pair.b)];
      if (a.left < 0 && b.left < 0) {
        look_at_spots(from, to, a, b, number);
        continue;
      }
      const bool split_a = b.left < 0 || (a.left >= 0 && size2(a.box) >= size2(b.box));
      const int left = split_a ? a.left : b.left;
      Pair halves[2];
      for (int k = 0; k < 2; ++k) {
        halves[k] = pair;
        (split_a ? halves[k].a : halves[k].b) = left + k;
        halves[k].bound = bound(from.tree[static_cast<std::size_t>(halves[k].a)],
                                to.tree[static_cast<std::size_t>(halves[k].b)]);
      }
      const int near = halves[1].bound < halves[0].bound ? 1 : 0;
      open.push_back(halves[1 - near]);
      open.push_back(halves[near]);
    }
  }

  Nearest best() const { return best_.from_patch >= 0 ? best_ : Nearest{}; }

 private:
  static double size2(const Box3& box) {
    const Vec3 d = box.hi - box.lo;
    return dot(d, d);
  }

  double value(const Box3& a, bool stands, const Box3& b, bool hook) const {
    const double E = ability_.height * (stands ? 1.0 : ability_.cling);
    if (!(E > 0.0)) return std::numeric_limits<double>::infinity();
    const double r = plan_distance(a, b);
    const double z = b.lo.z - (hook ? ability_.grip : 0.0) - a.hi.z;
    switch (measure_) {
      case Measure::effort:
        return effort(r, z, ability_.stretch) * (stands ? 1.0 : 1.0 / ability_.cling);
      case Measure::vertical_gap:
        return z - envelope_height(r, E, ability_.stretch);
      case Measure::clearance:
        return clearance_of_envelope(r, z, E, ability_.stretch);
    }
    return 0.0;
  }
  double bound(const TreeNode& a, const TreeNode& b) const {
    return value(a.box, a.stand, b.box, b.hook);
  }

  void look_at_spots(const Patch& from, const Patch& to, const TreeNode& a, const TreeNode& b,
                     int number) {
    for (int i = a.first; i < a.first + a.count; ++i) {
      for (int j = b.first; j < b.first + b.count; ++j) {
        const SurfacePiece& p = from.pieces[static_cast<std::size_t>(i)];
        const SurfacePiece& q = to.pieces[static_cast<std::size_t>(j)];
        const double v = value(p.cell, !p.cling, q.cell, q.hook);
        if (v < best_.value) best_ = {v, number, p.at, q.at};
      }
    }
  }

  Measure measure_;
  Ability ability_;
  Nearest best_;
};

void lay_triangle(Patch& patch, Vec3 a, Vec3 b, Vec3 c, double piece) {
  const double ab = distance(a, b);
  const double bc = distance(b, c);
  const double ca = distance(c, a);
  if (std::max({ab, bc, ca}) > piece) {
    if (bc > ab && bc >= ca) return lay_triangle(patch, b, c, a, piece);
    if (ca > ab) return lay_triangle(patch, c, a, b, piece);
    const Vec3 m = (a + b) * 0.5;
    lay_triangle(patch, a, m, c, piece);
    lay_triangle(patch, m, b, c, piece);
    return;
  }
  SurfacePiece spot;
  spot.at = (a + b + c) * (1.0 / 3.0);
  for (const Vec3& v : {a, b, c}) spot.cell.add(v);
  patch.pieces.push_back(spot);
}

}  // namespace

Nearest nearest(const std::vector<const Patch*>& from, const std::vector<const Patch*>& to,
                Measure measure, const Ability& ability, double below) {
  NearestSearch search(measure, ability, below);
  for (std::size_t k = 0; k < from.size(); ++k) {
    for (const Patch* target : to) search.look(*from[k], *target, static_cast<int>(k));
  }
  return search.best();
}

std::vector<PatchPtr> roof_patches(const Model& model, double piece) {
  std::vector<PatchPtr> result;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.kind != PartKind::roof || part.mesh.empty()) continue;
    auto patch = std::make_shared<Patch>();
    patch->part = static_cast<int>(k);
    patch->name = part.name;
    for (const geom::Triangle& t : part.mesh.triangles) {
      lay_triangle(*patch, part.mesh.vertices[t[0]], part.mesh.vertices[t[1]],
                   part.mesh.vertices[t[2]], piece);
    }
    build_tree(*patch);
    result.push_back(patch);
  }
  return result;
}

}  // namespace hummock::leap
