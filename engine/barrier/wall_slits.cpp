#include "engine/barrier/wall_slits.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::barrier {

namespace {

constexpr double kNoSlit = 1e-6;  // m; numeric, what is lower is rounding

// Some of its edge lies outside the yard, or nearer to the line than kShelterAway.
bool closes_yard(const Model& model) {
  if (!model.site.roof) return false;
  if (!model.site.roof->outline) return true;
  const Polygon roof = roof_outline(model);
  const auto near = [](const Polygon& line, Vec2 p) {
    return geom::distance_to_edges(line, p) < kShelterAway;
  };
  for (std::size_t k = 0; k < roof.size(); ++k) {
    if (!geom::contains(model.outline, roof[k]) || near(model.outline, roof[k])) return true;
    for (std::size_t i = 0; i < model.outline.size(); ++i) {
      const Vec2 a = model.outline[i], b = model.outline[geom::following(model.outline, i)];
      if (geom::segments_meet(roof[k], roof[geom::following(roof, k)], a, b)) return true;
    }
  }
  return std::any_of(model.outline.begin(), model.outline.end(),
                     [&](Vec2 p) { return near(roof, p); });
}

std::shared_ptr<const geom::RayScene> closing_roof(const Model& model) {
  if (!closes_yard(model)) return nullptr;
  auto scene = std::make_shared<geom::RayScene>();
  for (const Part& part : model.parts) {
    if (part.kind == PartKind::roof) scene->add_mesh(part.mesh, 0);
  }
  scene->commit();
  return scene;
}

double share_along(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 run = b - a;
  return std::clamp(dot(p - a, run) / std::max(dot(run, run), 1e-12), 0.0, 1.0);
}

}  // namespace

BeforeWalls::BeforeWalls(const Model& model) : model_(model), roof_(closing_roof(model)) {
  for (const Chain& chain : barrier_of(model).chains)
    for (const Stretch& s : chain.stretches)
      if (s.stands && (s.kind == StretchKind::panel || s.kind == StretchKind::vestibule_wall))
        fence_.push_back({s.a, s.b, s.top_a, s.top_b});
  const Polygon& outline = model.site.boundary.outline;
  for (const hummock::Drain& drain : model.site.boundary.drains) {
    const auto e = static_cast<std::size_t>(drain.edge) % outline.size();
    const Vec2 start = outline[e];
    const Vec2 along = geom::unit(outline[geom::following(outline, e)] - start);
    const Vec2 a = start + along * drain.from, b = a + along * drain.width;
    const double low = geom::height_at(model.ground, lerp(a, b, 0.5)) - model.snow + drain.sill;
    drains_.push_back({a, b, low, low + drain.height});
  }
}

std::optional<double> BeforeWalls::fence_top(Vec2 p) const {
  std::optional<double> top;
  for (const Fence& s : fence_) {
    if (geom::distance_to_segment(p, s.a, s.b) >= kBeyondWall) continue;
    const double here = s.top_a + (s.top_b - s.top_a) * share_along(p, s.a, s.b);
    top = std::max(top.value_or(here), here);
  }
  return top;
}

std::optional<double> BeforeWalls::roof_before(Vec2 p, Vec2 out, double low) const {
  if (!roof_) return std::nullopt;
  constexpr double kBelow = 100.0;  // m, from where it is looked for; numeric, a setting
  constexpr int kPlaces = 6;        // numeric, a setting
  for (int k = 0; k <= kPlaces; ++k) {
    const double off = kBeyondWall + (kShelterAway - kBeyondWall) * k / kPlaces;
    const Vec3 from = at_height(p + out * off, low - kBelow);
    const geom::Hit hit = roof_->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 2.0 * kBelow});
    if (hit) return from.z + hit.t;
  }
  return std::nullopt;
}

std::vector<Slit> BeforeWalls::slits(Vec2 p, Vec2 out, double low, double high) const {
  std::vector<Slit> list;
  const Space beyond = space_at(model_, p + out * kBeyondWall);
  const auto add = [&](double from, double to, const Before& before) {
    if (to - from > kNoSlit) list.push_back({from, to, before});
  };
  double free_from = low;
  const std::optional<double> top = fence_top(p);
  if (top) {
    free_from = std::clamp(*top, low, high);
    add(low, free_from, {beyond, true});
    for (std::size_t k = 0; k < drains_.size(); ++k) {
      const Drain& d = drains_[k];
      const Vec2 along = d.b - d.a;
      const bool beside = dot(p - d.a, along) < 0.0 || dot(d.b - p, along) < 0.0;
      if (beside || geom::distance_to_segment(p, d.a, d.b) >= kBeyondWall) continue;
      add(std::max(low, d.low), std::min(free_from, d.high),
          {beyond, false, false, false, static_cast<int>(k)});
    }
  }
  Before free{beyond, false, free_from > low};
  const std::optional<double> roof =
      beyond.kind == SpaceKind::yard ? roof_before(p, out, low) : std::optional<double>();
  const double split = roof ? std::clamp(*roof, free_from, high) : high;
  add(free_from, split, free);
  free.beyond = {};
  free.above_roof = true;
  add(split, high, free);
  return list;
}

}  // namespace hummock::barrier
