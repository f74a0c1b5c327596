#include "engine/leap/rows/remedies.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/convex_hull_cgal.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;

namespace {

constexpr double kClose = 5e-3;  // m, of the bisection
constexpr double kRound = 0.01;  // m, figures are rounded up to it
constexpr double kSlack = 1e-3;  // m, kept beyond the brief so that rounding cannot undo it

double rounded_up(double d) {
  return std::ceil((d + kSlack) / kRound - 1e-9) * kRound;
}

Box3 shifted(const Box3& box, Vec3 by) {
  Box3 moved = box;
  moved.lo = box.lo + by;
  moved.hi = box.hi + by;
  return moved;
}

// What the thing may not be too near to.
enum class Onward { ways_out, raised_too };

// Asks again and again whether the thing, shifted, is too near some exit, or another raised thing.
class Remedy {
 public:
  Remedy(const SearchContext& scene, const Furniture& thing, Onward onward = Onward::ways_out)
      : scene_(scene),
        asked_(std::max(1.0, scene.settings.required_margin) * scene.links.ability.height) {
    for (const int p : thing.patches) own_.push_back((*scene.patches)[static_cast<std::size_t>(p)]);
    for (const PatchPtr& p : *scene.patches) {
      const bool own = std::find(own_.begin(), own_.end(), p) != own_.end();
      const bool raised = onward == Onward::raised_too && p->kind == PatchKind::thing;
      if ((is_leapt_to(*p) || raised) && !own) ways_.push_back(p);
    }
    Polygon plan;
    for (const PatchPtr& p : own_) {
      all_.add(p->tree[0].box);
      for (const SurfacePiece& s : p->pieces) plan.push_back(xy(s.at));
    }
    hull_ = geom::convex_hull(plan);
  }

  bool empty() const { return own_.empty(); }
  const Box3& box() const { return all_; }

  // Some leap from the shifted thing needs less than asked. Pieces sunk below the ground are left
  // out when `sinks`.
  bool too_near(Vec3 by, bool sinks) const {
    for (const PatchPtr& p : own_) {
      for (const PatchPtr& w : ways_) {
        if (pair_too_near(*p, *w, by, sinks)) return true;
      }
    }
    return false;
  }

  // The thing's plan, as the hull of its places, lies within the outline.
  bool inside(Vec3 by) const {
    const Polygon& outline = scene_.model->outline;
    Polygon moved = hull_;
    for (Vec2& p : moved) {
      p = p + xy(by);
      if (!geom::contains(outline, p)) return false;
    }
    return moved.size() < 3 || std::none_of(outline.begin(), outline.end(), [&](Vec2 corner) {
             return geom::contains(moved, corner);
           });
  }

  // The most the ground rises under the thing's plan when it is shifted so: no way of setting it
  // on the ground lifts it more.
  double rise(Vec2 base, Vec2 by) const {
    const geom::Heightfield& ground = scene_.model->ground;
    double most = geom::height_at(ground, base + by) - geom::height_at(ground, base);
    constexpr int kSteps = 8;
    for (int j = 0; j <= kSteps; ++j) {
      for (int i = 0; i <= kSteps; ++i) {
        const Vec2 p{all_.lo.x + (all_.hi.x - all_.lo.x) * i / kSteps,
                     all_.lo.y + (all_.hi.y - all_.lo.y) * j / kSteps};
        most = std::max(most, geom::height_at(ground, p + by) - geom::height_at(ground, p));
      }
    }
    return most;
  }

 private:
  bool under_threshold(const Box3& a, bool stands, const Box3& b, bool hook) const {
    return link_bound(scene_.links, a, stands, b, hook) < asked_ + kSlack;
  }

  bool sunk(const SurfacePiece& s, Vec3 by) const {
    return s.cell.hi.z + by.z <= geom::height_at(scene_.model->ground, xy(s.at)) + kSlack;
  }

  bool pair_too_near(const Patch& from, const Patch& to, Vec3 by, bool sinks) const {
    std::vector<std::pair<int, int>> open{{0, 0}};
    while (!open.empty()) {
      const auto [i, j] = open.back();
      open.pop_back();
      const TreeNode& a = from.tree[static_cast<std::size_t>(i)];
      const TreeNode& b = to.tree[static_cast<std::size_t>(j)];
      if (!under_threshold(shifted(a.box, by), a.stand, b.box, b.hook)) continue;
      if (a.left < 0 && b.left < 0) {
        if (spots_too_near(from, to, a, b, by, sinks)) return true;
        continue;
      }
      const Vec3 da = a.box.hi - a.box.lo;
      const Vec3 db = b.box.hi - b.box.lo;
      const bool split_a = b.left < 0 || (a.left >= 0 && dot(da, da) >= dot(db, db));
      for (int k = 0; k < 2; ++k) {
        open.emplace_back(split_a ? a.left + k : i, split_a ? j : b.left + k);
      }
    }
    return false;
  }

  bool spots_too_near(const Patch& from, const Patch& to, const TreeNode& a, const TreeNode& b,
                      Vec3 by, bool sinks) const {
    for (int i = a.first; i < a.first + a.count; ++i) {
      const SurfacePiece& p = from.pieces[static_cast<std::size_t>(i)];
      if (sinks && sunk(p, by)) continue;
      for (int j = b.first; j < b.first + b.count; ++j) {
        const SurfacePiece& q = to.pieces[static_cast<std::size_t>(j)];
        if (under_threshold(shifted(p.cell, by), !p.cling, q.cell, q.hook)) return true;
      }
    }
    return false;
  }

  const SearchContext& scene_;
  double asked_;
  std::vector<PatchPtr> own_, ways_;
  Box3 all_;
  Polygon hull_;
};

// The shift along a direction, carried on the ground.
Vec3 carried(const Remedy& remedy, Vec2 base, Vec2 towards, double by) {
  return at_height(towards * by, remedy.rise(base, towards * by));
}

std::optional<double> along(const Remedy& remedy, Vec2 base, Vec2 towards, double most) {
  constexpr double kStride = 0.1;  // m
  double bad = 0.0;
  for (int stride = 1; (stride - 1) * kStride < most; ++stride) {
    const double by = stride * kStride;
    const Vec3 shift = carried(remedy, base, towards, by);
    if (!remedy.inside(shift)) return std::nullopt;
    if (remedy.too_near(shift, false)) {
      bad = by;
      continue;
    }
    double good = by;
    while (good - bad > kClose) {
      const double middle = 0.5 * (good + bad);
      const bool near = remedy.too_near(carried(remedy, base, towards, middle), false);
      (near ? bad : good) = middle;
    }
    const double rounded = rounded_up(good);
    const Vec3 last = carried(remedy, base, towards, rounded);
    if (remedy.inside(last) && !remedy.too_near(last, false)) return rounded;
    bad = by;
  }
  return std::nullopt;
}

}  // namespace

std::vector<Move> moves_to_try(const SearchContext& scene, const Furniture& thing) {
  const Remedy remedy(scene, thing);
  if (remedy.empty() || thing.object < 0) return {};
  const Vec2 base = scene.model->site.objects[static_cast<std::size_t>(thing.object)].at;
  const Ability& able = scene.links.ability;
  const double E = std::max(1.0, scene.settings.required_margin) * able.height;
  const double drop = std::max(0.0, remedy.box().hi.z - remedy.box().lo.z) + E;
  const double most = 2.0 * envelope_distance(-drop, E, able.stretch);
  std::vector<Move> moves;
  for (int k = 0; k < kDirections; ++k) {
    const double angle = 2.0 * geom::kPi * k / kDirections;
    const Vec2 towards{std::cos(angle), std::sin(angle)};
    const auto by = along(remedy, base, towards, most);
    if (by) moves.push_back({*by, towards});
  }
  std::stable_sort(moves.begin(), moves.end(),
                   [](const Move& a, const Move& b) { return a.by < b.by; });
  return moves;
}

namespace {

// The least lowering by which the thing is too near to nothing, below `whole`; rounded up.
std::optional<double> least_lowering(const Remedy& remedy, double whole) {
  constexpr double kStride = 0.05;  // m
  double bad = 0.0;
  for (int stride = 1; stride * kStride < whole; ++stride) {
    const double by = stride * kStride;
    if (remedy.too_near({0.0, 0.0, -by}, true)) {
      bad = by;
      continue;
    }
    double good = by;
    while (good - bad > kClose) {
      const double middle = 0.5 * (good + bad);
      (remedy.too_near({0.0, 0.0, -middle}, true) ? bad : good) = middle;
    }
    return rounded_up(good);
  }
  return std::nullopt;
}

}  // namespace

std::vector<double> lowerings_to_try(const SearchContext& scene, const Furniture& thing) {
  const Remedy remedy(scene, thing);
  if (remedy.empty() || thing.object < 0) return {};
  double whole = 0.0;  // sunk altogether
  for (const int n : thing.patches) {
    for (const SurfacePiece& s : (*scene.patches)[static_cast<std::size_t>(n)]->pieces) {
      whole = std::max(whole, s.cell.hi.z - geom::height_at(scene.model->ground, xy(s.at)));
    }
  }
  const auto out = least_lowering(remedy, whole);
  if (!out) return {};
  std::vector<double> list;
  // What stands near may make a lower thing a step still: a little more is tried too, and what it
  // takes to be no step on to any of it.
  for (const double more : {0.0, 0.1, 0.25}) {
    if (*out + more < whole) list.push_back(*out + more);
  }
  const auto onto = least_lowering(Remedy(scene, thing, Onward::raised_too), whole);
  if (onto && *onto > *out) list.push_back(*onto);
  std::sort(list.begin(), list.end());
  return list;
}

double bearing_deg(Vec2 towards) {
  const double angle = std::atan2(towards.x, towards.y) / geom::kDegree;
  const double tenths = std::round((angle < 0.0 ? angle + 360.0 : angle) * 10.0) / 10.0;
  return tenths >= 360.0 ? 0.0 : tenths;
}

const char* compass_words(double bearing) {
  static const char* const words[] = {"north", "north-east", "east", "south-east",
                                      "south", "south-west", "west", "north-west"};
  return words[static_cast<int>(std::lround(bearing / 45.0)) % 8];
}

}  // namespace hummock::leap
