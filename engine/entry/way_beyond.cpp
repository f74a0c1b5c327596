#include "engine/entry/way_beyond.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "engine/entry/entry.h"
#include "engine/entry/narrow_way.h"
#include "geometry/plan/polygon.h"
#include "geometry/rays/ray_scene.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

constexpr double kThrough = 0.15;  // m beyond the gate's line, where the spread
                                   // starts; common practice, no source

bool stops_a_body(const Part& part) {
  return part.blocks_body && part.kind != PartKind::ground;
}
// Sheets that may hang over a place. Solids are not asked: from inside one everything is above.
bool may_roof(const Part& part) {
  return part.kind == PartKind::roof || part.kind == PartKind::vestibule ||
         part.kind == PartKind::overhang;
}

// The parts near the gate, the leaf itself left out.
std::vector<geom::Mesh> things_near(const Model& model, const Gateway& gateway, double reach,
                                    bool (*wanted)(const Part&)) {
  const Vec2 middle = lerp(gateway.a, gateway.b, 0.5);
  std::vector<geom::Mesh> things;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (!wanted(part) || static_cast<int>(k) == gateway.leaf_part) continue;
    geom::Mesh near;
    near.vertices = part.mesh.vertices;
    for (const geom::Triangle& t : part.mesh.triangles) {
      geom::Box3 box;
      for (const std::uint32_t v : t) box.add(part.mesh.vertices[v]);
      if (box.lo.x < middle.x + reach && box.hi.x > middle.x - reach &&
          box.lo.y < middle.y + reach && box.hi.y > middle.y - reach) {
        near.triangles.push_back(t);
      }
    }
    if (!near.empty()) things.push_back(std::move(near));
  }
  return things;
}

geom::RayScene scene_of(const std::vector<geom::Mesh>& things) {
  geom::RayScene scene;
  for (std::size_t k = 0; k < things.size(); ++k) {
    scene.add_mesh(things[k], static_cast<std::int32_t>(k));
  }
  scene.commit();
  return scene;
}

// From half its height up to what it leaps: over a curb. What is lower is for the openings check.
std::vector<double> heights_of(const Species& animal) {
  constexpr double kApart = 0.05;  // m; common practice, no source
  const double low = 0.5 * std::max(0.1, animal.body.value[2]);
  const double high = animal.leap_height.value + animal.grip.value;
  std::vector<double> heights{low};
  while (heights.back() + kApart < high) heights.push_back(heights.back() + kApart);
  if (high > low) heights.push_back(high);
  return heights;
}

// What must find room in the doorway: where its head goes its body follows.
double head_width(const Species& animal, double doorway) {
  const double head = animal.least_opening.value;
  const double body = animal.body.value[1];
  return std::min({head > 0.0 ? std::min(head, body) : body, doorway});
}

double reach_of(const Model& model, const Gateway& gateway) {
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(gateway.gate)];
  return (gate.vestibule ? gate.vestibule->depth : 0.0) + gate.width + kFar;
}

}  // namespace

// What stands about the gate, whatever goes through it.
struct BeyondGate::About {
  About(const Model& m, const Gateway& g)
      : model(m),
        gateway(g),
        reach(reach_of(m, g)),
        things(things_near(m, g, 2.0 * reach, stops_a_body)),
        scene(scene_of(things)),
        roofs(scene_of(things_near(m, g, 2.0 * reach, may_roof))) {}

  const Model& model;
  Gateway gateway;
  double reach;  // m
  std::vector<geom::Mesh> things;
  geom::RayScene scene, roofs;
};

namespace {

class Spread {
 public:
  Spread(const BeyondGate::About& about, const Species& animal)
      : model_(about.model),
        things_(about.things),
        scene_(about.scene),
        roofs_(about.roofs),
        origin_(lerp(about.gateway.a, about.gateway.b, 0.5)),
        along_(geom::unit(about.gateway.b - about.gateway.a)),
        reach_(about.reach),
        heights_(heights_of(animal)),
        width_(head_width(animal, geom::distance(about.gateway.a, about.gateway.b))),
        doorway_(geom::distance(about.gateway.a, about.gateway.b)) {}

  // As far beyond the gate's line as the spread starts, `off` along the gate.
  Vec2 start(double off) const { return origin_ + along_ * off - left_of(along_) * kThrough; }

  // Finds where a head goes straight through; false = nowhere.
  bool doorway_free() {
    starts_.clear();
    const double room = 0.5 * (doorway_ - width_);
    const int n = static_cast<int>(room / kAside);
    for (int k = -n; k <= n; ++k) {
      if (corridor_free(k * kAside)) starts_.push_back(k * kAside);
    }
    return !starts_.empty();
  }

  // Does the head reach the rim of the looked-at square, outside the outline? At ease in wide
  // steps; else in narrow ones, where a ray and the head find a way each: the ray knows nothing of
  // widths, the head's way is found on slices (narrow_way.h).
  bool gets_away() const {
    if (spreads(kStep, true)) return true;
    const double narrow = std::clamp(width_ / 3.0, kAside, kStep);
    return spreads(narrow, false) &&
           head_gets_away(model_, things_,
                          {origin_, along_, reach_, width_, heights_, starts_, kThrough});
  }

 private:
  static constexpr double kAside = 0.02;  // m between the rays of a body, and between bodies tried

  // From cell to cell, i along the gate, j outwards: a strip as wide as the head free at each step,
  // or a ray.
  bool spreads(double step, bool strip) const {
    const int half = static_cast<int>(std::ceil(reach_ / step));
    const auto side = 2 * static_cast<std::size_t>(half) + 1;
    const auto place = [&](int i, int j) {
      return start(0.0) + along_ * (i * step) - left_of(along_) * (j * step);
    };
    std::vector<char> seen(side * side, 0);
    std::vector<std::pair<int, int>> open;
    const auto mark = [&](int i, int j) -> char& {
      return seen[static_cast<std::size_t>(j + half) * side + static_cast<std::size_t>(i + half)];
    };
    for (const double off : starts_) {
      const int i = static_cast<int>(std::trunc(off / step));
      if (mark(i, 0) == 0) open.emplace_back(i, 0);
      mark(i, 0) = 1;
    }
    while (!open.empty()) {
      const auto [i, j] = open.back();
      open.pop_back();
      if (std::max(std::abs(i), std::abs(j)) == half) return true;
      for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        if (mark(i + di, j + dj) != 0) continue;
        const Vec2 p = place(i, j), q = place(i + di, j + dj);
        if (geom::contains(model_.outline, q)) continue;
        if (!(strip ? strip_free(p, q) : free(p, q))) continue;
        mark(i + di, j + dj) = 1;
        open.emplace_back(i + di, j + dj);
      }
    }
    return false;
  }

  // Nothing stands in the way of a body whose middle passes `off` metres along the doorway.
  bool corridor_free(double off) const {
    const Vec2 aside = along_ * off;
    return strip_free(origin_ + aside + left_of(along_) * 0.3, start(off));
  }

  bool strip_free(Vec2 p, Vec2 q) const {
    const Vec2 across = left_of(geom::unit(q - p));
    const int rays = 1 + static_cast<int>(std::ceil(width_ / kAside));
    for (int k = 0; k <= rays; ++k) {
      const Vec2 aside = across * (width_ * (1.0 * k / rays - 0.5));
      if (!free(p + aside, q + aside)) return false;
    }
    return true;
  }

  // Does it get straight from p to q at some height? A centimetre over at both ends, so that no
  // sheet is slipped through where a place lies on it. Not above a sheet that hangs over either
  // end: it comes up from the ground, and through no roof.
  bool free(Vec2 p, Vec2 q) const {
    const Vec2 over = geom::unit(q - p) * 0.01;
    const auto at = [&](Vec2 v, double height) {
      return at_height(v, geom::height_at(model_.ground, v) + height);
    };
    const double low = heights_.front(), high = heights_.back();
    const auto under_a_roof = [&](Vec2 v, double height) {
      return height > low && roofs_.occluded({at(v, low), {0.0, 0.0, height - low}, 0.0, 1.0});
    };
    const bool open = !under_a_roof(p, high) && !under_a_roof(q, high);
    return std::any_of(heights_.begin(), heights_.end(), [&](double height) {
      if (!open && (under_a_roof(p, height) || under_a_roof(q, height))) return false;
      const Vec3 from = at(p - over, height), to = at(q + over, height);
      return !scene_.occluded({from, to - from, 0.0, 1.0});
    });
  }

  const Model& model_;
  const std::vector<geom::Mesh>& things_;
  const geom::RayScene &scene_, &roofs_;
  Vec2 origin_, along_;
  double reach_;                 // m
  std::vector<double> heights_;  // m above ground
  double width_, doorway_;       // m
  std::vector<double> starts_;   // m along the gate, where the head enters
};

std::string house_at(const Model& model, Vec2 p) {
  for (const House& house : model.site.houses) {
    if (geom::contains(house.outline, p)) return house.name;
  }
  return {};
}

}  // namespace

BeyondGate::BeyondGate(const Model& model, const Gateway& gateway)
    : about_(std::make_unique<const About>(model, gateway)) {}
BeyondGate::~BeyondGate() = default;

WayBeyond BeyondGate::way_of(const Species& animal) const {
  const Model& model = about_->model;
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(about_->gateway.gate)];
  Spread spread(*about_, animal);
  WayBeyond way;
  const std::string house = house_at(model, spread.start(0.0));
  if (!house.empty()) {
    way.passable = true;
    way.words = "into " + house;
    return way;
  }
  way.passable = spread.doorway_free();
  if (!way.passable) {
    way.words = "nowhere: something stands in the doorway";
    return way;
  }
  way.outside = spread.gets_away();
  if (way.outside) {
    way.words = gate.vestibule ? "through the vestibule to the outside" : "straight to the outside";
  } else {
    way.held_by_things = !gate.vestibule;
    way.words = gate.vestibule ? "into the vestibule, shut by its second gate"
                               : "into a closed space outside the fence";
  }
  return way;
}

WayBeyond way_beyond(const Model& model, const Gateway& gateway) {
  return BeyondGate(model, gateway).way_of(model.site.species);
}

}  // namespace hummock::entry
