#include "engine/entry/way_beyond.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "engine/entry/entry.h"
#include "geometry/plan/polygon.h"
#include "geometry/rays/ray_scene.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

constexpr double kThrough = 0.15;  // m beyond the gate's line, where the spread
                                   // starts; common practice, no source

// What is near the gate and stops a body, the leaf itself left out.
geom::RayScene scene_near(const Model& model, const Gateway& gateway, double reach) {
  const Vec2 middle = lerp(gateway.a, gateway.b, 0.5);
  geom::RayScene scene;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (!part.blocks_body || static_cast<int>(k) == gateway.leaf_part) continue;
    if (part.kind == PartKind::ground) continue;
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
    if (!near.empty()) scene.add_mesh(near, static_cast<std::int32_t>(k));
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

class Spread {
 public:
  Spread(const Model& model, const Gateway& gateway, double reach)
      : model_(model),
        scene_(scene_near(model, gateway, 2.0 * reach)),
        origin_(lerp(gateway.a, gateway.b, 0.5)),
        along_(geom::unit(gateway.b - gateway.a)),
        half_(static_cast<int>(std::ceil(reach / kStep))),
        heights_(heights_of(model.site.species)),
        width_(head_width(model.site.species, geom::distance(gateway.a, gateway.b))),
        doorway_(geom::distance(gateway.a, gateway.b)) {}

  // Cell (i, j): i along the gate, j outwards, its middle kThrough beyond the line at j = 0.
  Vec2 place(int i, int j) const {
    return origin_ + along_ * (i * kStep) - left_of(along_) * (kThrough + j * kStep);
  }

  // Finds where a body of the animal's width goes straight through; false = nowhere.
  bool doorway_free() {
    seeds_.clear();
    const double room = 0.5 * (doorway_ - width_);
    const int n = static_cast<int>(room / kAside);
    for (int k = -n; k <= n; ++k) {
      if (corridor_free(k * kAside))
        seeds_.push_back(static_cast<int>(std::trunc(k * kAside / kStep)));
    }
    return !seeds_.empty();
  }

  // Does the body reach the rim of the looked-at square, outside the outline?
  bool gets_away() {
    const int side = 2 * half_ + 1;
    std::vector<char> seen(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 0);
    std::vector<std::pair<int, int>> open;
    const auto mark = [&](int i, int j) -> char& {
      const auto row = static_cast<std::size_t>(j + half_);
      return seen[row * static_cast<std::size_t>(side) + static_cast<std::size_t>(i + half_)];
    };
    for (const int i : seeds_) {
      if (mark(i, 0) == 0) open.emplace_back(i, 0);
      mark(i, 0) = 1;
    }
    while (!open.empty()) {
      const auto [i, j] = open.back();
      open.pop_back();
      if (std::max(std::abs(i), std::abs(j)) == half_) return true;
      for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        if (mark(i + di, j + dj) != 0) continue;
        const Vec2 q = place(i + di, j + dj);
        if (geom::contains(model_.outline, q) || !free(place(i, j), q)) continue;
        mark(i + di, j + dj) = 1;
        open.emplace_back(i + di, j + dj);
      }
    }
    return false;
  }

 private:
  static constexpr double kAside = 0.02;  // m between the rays of a body, and between bodies tried

  // Nothing stands in the way of a body whose middle passes `off` metres along the doorway.
  bool corridor_free(double off) const {
    const int rays = 1 + static_cast<int>(std::ceil(width_ / kAside));
    for (int k = 0; k <= rays; ++k) {
      const Vec2 aside = along_ * (off + width_ * (1.0 * k / rays - 0.5));
      if (!free(origin_ + aside + left_of(along_) * 0.3, place(0, 0) + aside)) return false;
    }
    return true;
  }

  // Does it get straight from p to q at some height? A centimetre over at both ends, so that no
  // sheet is slipped through where a place lies on it.
  bool free(Vec2 p, Vec2 q) const {
    const Vec2 over = geom::unit(q - p) * 0.01;
    return std::any_of(heights_.begin(), heights_.end(), [&](double height) {
      const auto at = [&](Vec2 v) {
        return at_height(v, geom::height_at(model_.ground, v) + height);
      };
      const Vec3 from = at(p - over), to = at(q + over);
      return !scene_.occluded({from, to - from, 0.0, 1.0});
    });
  }

  const Model& model_;
  geom::RayScene scene_;
  Vec2 origin_, along_;
  int half_;
  std::vector<double> heights_;  // m above ground
  double width_, doorway_;       // m
  std::vector<int> seeds_;       // columns the body enters by
};

std::string house_at(const Model& model, Vec2 p) {
  for (const House& house : model.site.houses) {
    if (geom::contains(house.outline, p)) return house.name;
  }
  return {};
}

}  // namespace

WayBeyond way_beyond(const Model& model, const Gateway& gateway) {
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(gateway.gate)];
  const double depth = gate.vestibule ? gate.vestibule->depth : 0.0;
  Spread spread(model, gateway, depth + gate.width + kFar);
  WayBeyond way;
  const std::string house = house_at(model, spread.place(0, 0));
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
    way.words = gate.vestibule ? "into the vestibule, shut by its second gate"
                               : "into a closed space outside the fence";
  }
  return way;
}

}  // namespace hummock::entry
