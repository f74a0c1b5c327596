#include "engine/burrows/drawn_faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/model/climbed.h"
#include "engine/species/young.h"
#include "engine/usable/body_patches.h"
#include "engine/usable/clear_between.h"
#include "engine/usable/thing_tops.h"
#include "geometry/plan/node_range.h"
#include "geometry/plan/points_along.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::burrows {
namespace {

constexpr double kApart = 0.1;    // m; numeric, a setting
constexpr double kFinest = 0.05;  // m, of the grid over a rock's top, at most; numeric, a setting

std::vector<Vec2> along(const Burrow& burrow) {
  std::vector<Vec2> path{burrow.mouth};
  path.insert(path.end(), burrow.path.begin(), burrow.path.end());
  return geom::points_along(path, kApart);
}

struct Top {
  geom::Box3 box;
  bool gained = false;
};

double gap_between(const geom::Box3& a, const geom::Box3& b) {
  return std::hypot(std::max({a.lo.x - b.hi.x, 0.0, b.lo.x - a.hi.x}),
                    std::max({a.lo.y - b.hi.y, 0.0, b.lo.y - a.hi.y}));
}

// Some node of the animal's own ground lies within a body's length of the box on plan (two cells at
// least), with nothing between.
bool own_ground_about(const Yard& yard, const usable::Nodes& nodes, const geom::Box2& box) {
  constexpr double kOff = 0.01;  // m before the box, which the thing itself fills; numeric
  const geom::Grid& g = nodes.grid;
  const double within = std::max(2.0 * g.cell, yard.ground.body().length);
  const Vec2 reach{within, within};
  const geom::NodeRange range = geom::nodes_about(g, box.lo - reach, box.hi + reach);
  for (int j = range.j0; j <= range.j1; ++j)
    for (int i = range.i0; i <= range.i1; ++i) {
      if (nodes.live[g.index(i, j)] == 0) continue;
      const Vec2 node = g.node(i, j);
      const Vec2 nearest{std::clamp(node.x, box.lo.x, box.hi.x),
                         std::clamp(node.y, box.lo.y, box.hi.y)};
      const double off = geom::distance(node, nearest);
      if (off > within) continue;
      if (off <= kOff) return true;
      const Vec2 before = lerp(nearest, node, kOff / off);
      if (usable::clear_between(yard.model, node, before, yard.ground.body().crouch)) return true;
    }
  return false;
}

// From the lowest ground at the foot of its box, the careful one.
bool gained_from_ground(const Yard& yard, const usable::Nodes& nodes, const Part& part,
                        const geom::Box3& box) {
  const Model& model = yard.model;
  const Species& animal = model.site.species;
  if (!own_ground_about(yard, nodes, {xy(box.lo), xy(box.hi)})) return false;
  if (climbs(animal, part.surface)) return true;
  double ground = 1e300;
  for (const Vec2 p : {xy(box.lo), xy(box.hi), Vec2{box.lo.x, box.hi.y}, Vec2{box.hi.x, box.lo.y}})
    ground = std::min(ground, geom::height_at(model.ground, p));
  return box.hi.z - ground <= leap_of_both(animal) + animal.grip.value;
}

bool gained_from(const Model& model, const Top& from, const Top& to) {
  const Species& animal = model.site.species;
  return from.gained && to.box.hi.z - from.box.hi.z <= 0.5 * leap_of_both(animal) &&
         gap_between(from.box, to.box) <= 0.5 * animal.leap_distance.value;
}

std::vector<Top> tops(const Yard& yard, const usable::Nodes& nodes) {
  const Model& model = yard.model;
  std::vector<Top> list;
  for (const int part : model.object_part) {
    Top top;
    if (part >= 0 && !model.parts[static_cast<std::size_t>(part)].mesh.empty()) {
      const Part& solid = model.parts[static_cast<std::size_t>(part)];
      top.box = geom::bounds(solid.mesh);
      top.gained = gained_from_ground(yard, nodes, solid, top.box);
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

std::string reach_fault(const Yard& yard, const usable::Nodes& nodes, Vec2 at) {
  if (own_ground_about(yard, nodes, {at, at})) return {};
  return "the animal does not come there from its start, as far as is shown";
}

// `wide`: m; 0 = not given.
std::string narrow_fault(const Yard& yard, double wide) {
  const double head = head_of_both(yard.model.site.species);
  if (!(wide > 0.0) || wide >= head) return {};
  return fmt::format("it is {:.2f} m wide, the head passes {:.2f} m", wide, head);
}

}  // namespace

std::string den_fault(const Yard& yard, const usable::Nodes& nodes, const Den& den, Vec2 front) {
  const std::string narrow = narrow_fault(yard, den.opening);
  return narrow.empty() ? reach_fault(yard, nodes, front) : narrow;
}

std::string burrow_fault(const Yard& yard, const usable::Nodes& nodes, const Burrow& burrow) {
  const Model& model = yard.model;
  std::string narrow = narrow_fault(yard, burrow.diameter);
  if (!narrow.empty()) return narrow;
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
  return reach_fault(yard, nodes, burrow.mouth);
}

bool lies_on_top(const Yard& yard, const std::string& object) {
  const auto& objects = yard.model.site.objects;
  const auto found = std::find_if(objects.begin(), objects.end(),
                                  [&](const Object& o) { return o.name == object; });
  if (found == objects.end()) return true;
  const int part = yard.model.object_part[static_cast<std::size_t>(found - objects.begin())];
  const Body& body = yard.ground.body();
  if (part < 0 || !(body.width > 0.0)) return true;
  const geom::Box3 box = geom::bounds(yard.model.parts[static_cast<std::size_t>(part)].mesh);
  const double cell = std::min(kFinest, body.width / 4.0);
  const auto steps = [&](double span) { return static_cast<int>(std::ceil(span / cell)) + 5; };
  const geom::Grid grid{box.lo.x - 2.0 * cell, box.lo.y - 2.0 * cell, cell,
                        steps(box.hi.x - box.lo.x), steps(box.hi.y - box.lo.y)};
  const std::vector<double> tops = usable::thing_tops(yard.model, yard.ground, grid);
  std::vector<std::uint8_t> standing(grid.size());
  for (std::size_t n = 0; n < tops.size(); ++n) standing[n] = std::isnan(tops[n]) ? 0 : 1;
  const auto patches = usable::body_patches(grid, standing, body.length, body.width);
  return std::any_of(patches.begin(), patches.end(), [](std::uint8_t in) { return in != 0; });
}

std::set<std::string> tops_not_gained(const Yard& yard, const usable::Nodes& nodes) {
  const std::vector<Top> list = tops(yard, nodes);
  std::set<std::string> lost;
  for (std::size_t k = 0; k < list.size(); ++k)
    if (!list[k].gained) lost.insert(yard.model.site.objects[k].name);
  return lost;
}

}  // namespace hummock::burrows
