// The barrier: everything that stands between the yard and the outside, as closed chains of
// oriented stretches. Analyses walk it, so that none can forget a stretch.
//
// Chains. The boundary (its panels and its gates), each vestibule (its gate again, then its walls),
// each house (walls and door), the roof (its edge). Every chain runs counter-clockwise on plan and
// is closed: the end of a stretch is the beginning of the next, the last one's end the first one's
// beginning. A stretch is cut wherever another chain's line crosses or touches it, so what lies on
// either side is one and the same along the whole of it.
//
// Either side. Found on plan kAside from the stretch's middle: a house's room, a vestibule, the
// yard, else outside. Where they overlap the house goes before the vestibule, the vestibule before
// the yard (a vestibule that runs into another arm of the yard is then seen by its walls' right
// sides). Things thinner than kAside are not told apart.
//
// What stands: foot and top, straight between the ends (a raked panel follows the ground between;
// the mesh of `part` is exact); nothing where a vestibule has no second gate (`stands` false). What
// is buried is what the site file gives for that stretch; under a gate only a footing counts
// (common practice, no source), and a house's wall has its own footing and floor.
//
// An edge that no section covers is a stretch on which nothing stands.
//
// An analysis goes along the chains by engine/barrier/walk.h.
//
// Pure and small: O(stretches + crossings with houses and vestibules). Coordinates are the model's.
#pragma once

#include <optional>
#include <vector>

#include "engine/model/model.h"

namespace hummock::barrier {

inline constexpr double kAside = 1e-3;     // m
inline constexpr double kSameLine = 1e-6;  // m: nearer lines are one line

enum class SpaceKind { outside, yard, house, vestibule };
struct Space {
  SpaceKind kind = SpaceKind::outside;
  int index = -1;  // of site.houses, or of model.gateways for a vestibule
  friend bool operator==(const Space&, const Space&) = default;
};

enum class StretchKind {
  panel,
  gate,
  vestibule_wall,
  second_gate,
  house_wall,
  house_door,
  roof_edge
};

struct Buried {
  double skirt = 0.0;  // m below the ground, on the line
  std::optional<Apron> apron;
  std::optional<Footing> footing;
  bool solid_floor = false;  // a house's: nothing is dug up through it
};

struct Stretch {
  StretchKind kind = StretchKind::panel;
  Vec2 a, b;  // a→b has the chain's own space on its left
  Space left, right;
  bool stands = true;             // false: an opening without a door in it
  bool opens = false;             // a gate or a door: may be left open
  bool told_elsewhere = false;    // a vestibule's gate: it is the boundary's
  double foot_a = 0, foot_b = 0;  // m above datum
  double top_a = 0, top_b = 0;    // m above datum
  SheetKind sheet = SheetKind::solid;
  Surface surface = Surface::smooth;  // what is climbed on it
  int part = -1;                      // of the model, that stands there
  int overhang = -1;                  // of model.overhangs, on its top
  bool under_roof = false;            // the roof covers its left side at its middle
  Buried buried;
  int panel = -1, gateway = -1, house = -1, section = -1;
  // Which side of the chain's polygon it lies on: edge of model.outline, or of the house's outline
  // counter-clockwise, or of the vestibule's box; -1 for the roof.
  int side = -1;
};

enum class ChainKind { boundary, vestibule, house, roof };
struct Chain {
  ChainKind kind = ChainKind::boundary;
  int index = -1;  // of model.gateways or site.houses
  std::vector<Stretch> stretches;
};
struct Barrier {
  std::vector<Chain> chains;
};

Barrier barrier_of(const Model& model);

// What lies at a place on plan.
Space space_at(const Model& model, Vec2 p);

// A gateway's vestibule on plan, counter-clockwise from the gate's a; empty when it has none.
Polygon vestibule_outline(const Model& model, int gateway);

// The roof's plan outline; empty without a roof.
Polygon roof_outline(const Model& model);

// Does it part the outside from anything that is not?
bool bounds_outside(const Stretch& stretch);

}  // namespace hummock::barrier
