// The roof: one sheet over its outline.
//
// Unsagged it is level at `height`, or lies `above_fence` over the fence: at every post over the
// higher of the tops that meet there, straight between posts, and inside smooth by mean value
// coordinates (mean_value.h). An outline of its own may reach beyond the boundary; there the height
// of the nearest fence is used, and its rim has a corner beside each post that is near. What lies
// outside its outline is open.
//
// Sag: with d the distance to the nearest edge of the roof's outline, or to a prop, and D the
// greatest such distance, the sheet hangs sag · (1 − (1 − d/D)²) lower. Across a long strip or a
// circle that is the parabola of an evenly loaded net; in a rectangle the four sides' parabolas
// meet in creases. Facets differ from that surface by at most cell² · sag / (4 D²), with a cell
// chosen to keep it under 2 mm or, on wide roofs, to 20 000 facets. A prop is an upright post of
// the site whose top comes within kPropReach of the unsagged sheet or above it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/model/build/build_steps.h"
#include "engine/model/optics.h"
#include "engine/model/shapes/mean_value.h"

namespace hummock {
namespace {

struct FenceTops {
  Polygon posts;
  std::vector<double> z;
};

FenceTops fence_tops(const Model& model) {
  FenceTops tops;
  const std::size_t n = model.panels.size();
  for (std::size_t k = 0; k < n; ++k) {
    tops.posts.push_back(model.panels[k].a);
    tops.z.push_back(std::max(model.panels[k].top_a, model.panels[(k + n - 1) % n].top_b));
  }
  return tops;
}

double over_fence(const FenceTops& tops, Vec2 p) {
  const Vec2 q = geom::contains(tops.posts, p) ? p : geom::nearest_on_edges(tops.posts, p).point;
  return mean_value(tops.posts, tops.z, q);
}

double facet_cell(double sag, double deepest, double area) {
  constexpr double kFacetError = 0.002;
  const double fine = deepest / 8.0;
  const double for_sag = sag > 0.0 ? 2.0 * deepest * std::sqrt(kFacetError / sag) : fine;
  return std::max({std::min(fine, for_sag), std::sqrt(area / 10000.0), 0.01});
}

// The outline as a plan mesh fine enough to bend.
geom::Mesh plan_mesh(const Polygon& outline, double cell) {
  return geom::ground_mesh(geom::level_ground(geom::bounds(outline), cell, 0.0), outline);
}

// The rim with a corner beside each post near it: the heights it takes from the fence bend there,
// and a facet across such a bend would lie off by what the turn of the yard makes it.
Polygon bent_at_posts(const Polygon& rim, const Polygon& posts) {
  constexpr double kNear = 0.3;    // m, of the rim to a post; common practice, no source
  constexpr double kApart = 1e-3;  // m, of two corners; numeric
  Polygon bent;
  for (std::size_t k = 0; k < rim.size(); ++k) {
    const Vec2 a = rim[k];
    const Vec2 run = rim[(k + 1) % rim.size()] - a;
    const double size = length(run);
    std::vector<double> along;
    for (const Vec2 post : posts) {
      const double at = dot(post - a, run) / std::max(size, kApart);
      if (at > kApart && at < size - kApart && geom::distance(post, a + run * (at / size)) <= kNear)
        along.push_back(at);
    }
    std::sort(along.begin(), along.end());
    bent.push_back(a);
    double last = 0.0;
    for (const double at : along) {
      if (at - last <= kApart) continue;
      bent.push_back(a + run * (at / size));
      last = at;
    }
  }
  return bent;
}

Polygon roof_outline(const Model& model, const Roof& roof) {
  Polygon posts = fence_tops(model).posts;
  if (!roof.outline) return posts;
  Polygon own = *roof.outline;
  if (geom::signed_area(own) < 0.0) std::reverse(own.begin(), own.end());
  return roof.height ? own : bent_at_posts(own, posts);
}

constexpr double kPropReach = 0.10;  // m; common practice, no source

// What the roof hangs from.
struct Supports {
  const Roof& roof;
  Polygon outline;
  FenceTops tops;
  std::vector<Vec2> props;

  double unsagged(Vec2 p) const {
    return roof.height ? *roof.height : over_fence(tops, p) + roof.above_fence.value_or(0.0);
  }
  double distance_to(Vec2 p) const {
    double least = geom::distance_to_edges(outline, p);
    for (Vec2 prop : props) least = std::min(least, geom::distance(prop, p));
    return least;
  }
};

std::vector<Vec2> props_of(const Model& model, const Supports& supports) {
  std::vector<Vec2> props;
  for (const Object& o : model.site.objects) {
    if (o.kind != ObjectKind::post || o.lean != 0.0) continue;
    if (!geom::contains(supports.outline, o.at)) continue;
    const double top = geom::height_at(model.ground, o.at) + o.z + o.size.z;
    if (top >= supports.unsagged(o.at) - kPropReach) props.push_back(o.at);
  }
  return props;
}

}  // namespace

namespace {

// A roof that covers nothing of the yard, or lies in the ground, is a slip of the pen.
void refuse_useless_roof(const Model& model, const Part& part) {
  bool over_yard = false;
  for (const Vec3& v : part.mesh.vertices) {
    if (!geom::contains(model.outline, xy(v))) continue;
    over_yard = true;
    const double ground = geom::height_at(model.ground, xy(v));
    if (v.z > ground) continue;
    Where where = model.site.roof->where;
    where.key = model.site.roof->height ? "roof.height" : "roof.above_fence";
    const Vec2 at = model.to_site(xy(v));
    throw InputError(
        where,
        fmt::format("a roof at {:.2f} m where the ground is at {:.2f} m, ({:.2f}, {:.2f})", v.z,
                    ground, at.x, at.y),
        "a roof above the ground everywhere inside the boundary");
  }
  for (const Vec2 corner : model.outline) {
    over_yard = over_yard ||
                (model.site.roof->outline && geom::contains(*model.site.roof->outline, corner));
  }
  if (over_yard) return;
  Where where = model.site.roof->where;
  where.key = "roof.outline";
  throw InputError(where, "a roof wholly outside the boundary", "a roof over some of the yard");
}

}  // namespace

void build_roof(Model& model) {
  if (!model.site.roof || model.panels.empty()) return;
  const Roof& roof = *model.site.roof;
  Supports supports{roof, roof_outline(model, roof), fence_tops(model), {}};
  supports.props = props_of(model, supports);
  const geom::Box2 box = geom::bounds(supports.outline);
  const double wide = std::min(box.hi.x - box.lo.x, box.hi.y - box.lo.y);
  const double open = geom::largest_inscribed_circle(supports.outline, 1e-3 * wide).radius;
  Part part;
  part.name = "roof";
  part.kind = PartKind::roof;
  part.source = 0;
  set_sheet(part, roof.kind, roof.aperture, roof.wire);
  part.mesh =
      plan_mesh(supports.outline, facet_cell(roof.sag, open, geom::signed_area(supports.outline)));
  double deepest = supports.props.empty() ? open : 0.0;
  for (const Vec3& v : part.mesh.vertices) {
    deepest = std::max(deepest, supports.distance_to(xy(v)));
  }
  for (Vec3& v : part.mesh.vertices) {
    const double t = std::min(1.0, supports.distance_to(xy(v)) / deepest);
    v.z = supports.unsagged(xy(v)) - roof.sag * t * (2.0 - t);
  }
  refuse_useless_roof(model, part);
  model.parts.push_back(std::move(part));
}

}  // namespace hummock
