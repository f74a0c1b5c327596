#include "engine/entry/vestibule_walls.h"

#include <algorithm>

#include "engine/model/climbed.h"
#include "geometry/plan/polygon.h"

namespace hummock::entry {

namespace {

using barrier::Chain;
using barrier::ChainKind;
using barrier::Stretch;

struct Holds {
  bool overhang = false, roof = false;
};

// By what the fence holds at the gate, and in the panels on either side of it.
Holds fence_holds(const Chain& boundary, int gateway) {
  Holds holds;
  const std::size_t n = boundary.stretches.size();
  for (std::size_t k = 0; k < n; ++k) {
    if (boundary.stretches[k].gateway != gateway) continue;
    for (const std::size_t i : {(k + n - 1) % n, k, (k + 1) % n}) {
      holds.overhang = holds.overhang || boundary.stretches[i].overhang >= 0;
      holds.roof = holds.roof || boundary.stretches[i].under_roof;
    }
  }
  return holds;
}

bool covered(const Model& model, int gateway) {
  const Gateway& g = model.gateways[static_cast<std::size_t>(gateway)];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  if (gate.vestibule && gate.vestibule->roofed) return true;
  const Polygon roof = barrier::roof_outline(model);
  const Polygon box = barrier::vestibule_outline(model, gateway);
  return !roof.empty() &&
         std::all_of(box.begin(), box.end(), [&](Vec2 p) { return geom::contains(roof, p); });
}

// The least a wall rises above the ground at its foot.
double least_rise(const Chain& vestibule) {
  double least = 1e300;
  for (const Stretch& s : vestibule.stretches) {
    if (s.told_elsewhere) continue;
    least = std::min({least, s.top_a - s.foot_a, s.top_b - s.foot_b});
  }
  return least;
}

bool gets_over(const Model& model, const Chain& vestibule) {
  const Species& animal = model.site.species;
  if (least_rise(vestibule) < animal.leap_height.value + animal.grip.value) return true;
  return std::any_of(vestibule.stretches.begin(), vestibule.stretches.end(), [&](const Stretch& s) {
    return !s.told_elsewhere && climbs(animal, s.surface);
  });
}

}  // namespace

VestibuleWalls judge_walls(const Model& model, const barrier::Barrier& barrier, int gateway) {
  VestibuleWalls walls;
  Holds holds;
  for (const Chain& chain : barrier.chains) {
    if (chain.kind == ChainKind::boundary) holds = fence_holds(chain, gateway);
    if (chain.kind != ChainKind::vestibule || chain.index != gateway) continue;
    for (const Stretch& s : chain.stretches) {
      if (!s.told_elsewhere && s.right.kind == barrier::SpaceKind::yard) walls.into_yard = true;
    }
    walls.weaker =
        (holds.overhang || holds.roof) && !covered(model, gateway) && gets_over(model, chain);
  }
  if (walls.weaker) {
    walls.words =
        std::string("into the vestibule and out over its walls: the fence holds by its ") +
        (holds.roof ? "roof" : "overhang") + ", the vestibule has none";
  }
  return walls;
}

}  // namespace hummock::entry
