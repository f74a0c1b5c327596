#include "engine/burrows/drawn_faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/model/climbed.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::burrows {
namespace {

constexpr double kApart = 0.1;  // m; numeric, a setting

std::vector<Vec2> along(const Burrow& burrow) {
  std::vector<Vec2> points{burrow.mouth};
  for (const Vec2 to : burrow.path) {
    const Vec2 from = points.back();
    const int n = std::max(1, static_cast<int>(std::ceil(geom::distance(from, to) / kApart)));
    for (int k = 1; k <= n; ++k) points.push_back(lerp(from, to, 1.0 * k / n));
  }
  return points;
}

struct Top {
  geom::Box3 box;
  bool gained = false;
};

double gap_between(const geom::Box3& a, const geom::Box3& b) {
  return std::hypot(std::max({a.lo.x - b.hi.x, 0.0, b.lo.x - a.hi.x}),
                    std::max({a.lo.y - b.hi.y, 0.0, b.lo.y - a.hi.y}));
}

// From the lowest ground at the foot of its box, the careful one.
bool gained_from_ground(const Model& model, const Part& part, const geom::Box3& box) {
  const Species& animal = model.site.species;
  if (climbs(animal, part.surface)) return true;
  double ground = 1e300;
  for (const Vec2 p : {xy(box.lo), xy(box.hi), Vec2{box.lo.x, box.hi.y}, Vec2{box.hi.x, box.lo.y}})
    ground = std::min(ground, geom::height_at(model.ground, p));
  return box.hi.z - ground <= animal.leap_height.value + animal.grip.value;
}

bool gained_from(const Model& model, const Top& from, const Top& to) {
  const Species& animal = model.site.species;
  return from.gained && to.box.hi.z - from.box.hi.z <= 0.5 * animal.leap_height.value &&
         gap_between(from.box, to.box) <= 0.5 * animal.leap_distance.value;
}

std::vector<Top> tops(const Model& model) {
  std::vector<Top> list;
  for (const int part : model.object_part) {
    Top top;
    if (part >= 0 && !model.parts[static_cast<std::size_t>(part)].mesh.empty()) {
      const Part& solid = model.parts[static_cast<std::size_t>(part)];
      top.box = geom::bounds(solid.mesh);
      top.gained = gained_from_ground(model, solid, top.box);
    }
    list.push_back(top);
  }
  for (bool more = true; more;) {
    more = false;
    for (Top& to : list) {
      if (to.gained || std::none_of(list.begin(), list.end(),
                                    [&](const Top& from) { return gained_from(model, from, to); }))
        continue;
      to.gained = more = true;
    }
  }
  return list;
}

}  // namespace

std::string burrow_fault(const Model& model, const Burrow& burrow) {
  const double head = model.site.species.least_opening.value;
  if (burrow.diameter > 0.0 && burrow.diameter < head) {
    return fmt::format("it is {:.2f} m wide, the head passes {:.2f} m", burrow.diameter, head);
  }
  for (const Vec2 p : along(burrow)) {
    for (const Water& water : model.site.waters) {
      if (geom::contains(water.outline, p)) return "it runs under the water \"" + water.name + "\"";
    }
    const auto soil = soil_over_rock(model, p);
    if (soil && burrow.depth > *soil) {
      return fmt::format("it is drawn {:.2f} m deep, deeper than the soil of {:.2f} m",
                         burrow.depth, *soil);
    }
  }
  return {};
}

bool gains_top(const Model& model, const std::string& object) {
  const std::vector<Top> list = tops(model);
  for (std::size_t k = 0; k < list.size(); ++k) {
    if (model.site.objects[k].name == object) return list[k].gained;
  }
  return true;
}

}  // namespace hummock::burrows
