// Where the barrier is looked at for tunnels: each place with its vertical plane.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "engine/barrier/walk.h"
#include "engine/dig/buried_parts.h"
#include "engine/dig/section/section_paths.h"
#include "engine/model/model.h"

namespace hummock::dig {

struct StationPlace {
  CutPlane plane;
  int section = -1;  // of the boundary
  int house = -1;
  int gateway = -1;  // under this gate
  bool corner = false;
  bool between = false;  // two stations, where tunnels are shortest
  // Askew: the outside half is another plane through the same upright line, `out` its direction
  // inwards. Kinds of piece not counted in either half beside those of a gate.
  bool folded = false;
  Vec2 out;
  std::uint32_t without_in = 0, without_out = 0;
  int side = -1;        // edge of the model's outline, or of the house's
  bool way_out = true;  // false: a house wall with the yard on its other side
};

// What is dug under of the barrier. A vestibule is not lived in: a tunnel under its gate already
// counts as out, and nothing digs for hours between two doors.
barrier::Look look(const barrier::Stretch& stretch);

// Along every edge in steps of at most `spacing`, in the middle of each step, the plane square to
// the fence; round every corner a fan of planes from the one edge's normal to the other's, close
// enough that at the reach of the widest apron they stand `spacing` apart; round every house the
// same as along the boundary, with the house's floor as the inside.
std::vector<StationPlace> station_places(const Model& model, const BuriedParts& parts,
                                         double spacing);

// Where what is buried changes along the fence: folded planes on either side of the place.
std::vector<StationPlace> askew_places(const Model& model, const barrier::Barrier& barrier);

// Just beside such a place, on one side of it: from inside, on the side of the other, a tunnel
// comes there to slip past the end of what is buried. The plane is square to the fence.
struct PlaceOfChange {
  StationPlace place;
  Vec2 towards_other;  // unit, along the fence
};
std::vector<PlaceOfChange> places_of_change(const Model& model);

// The direction of the plane's outside half.
Vec2 outer_inwards(const StationPlace& place);

// The gateway whose line p lies on, -1 = none.
int gateway_at(const Model& model, Vec2 p);

// The name of what the tunnel passes under there: gate, section or house.
std::string thing_at(const Model& model, const StationPlace& place);

// The soil over rock (or a liner), m; nothing where none is said to lie below.
std::optional<double> soil_over_rock(const Model& model);
inline constexpr double kFilm = 1e-3;  // m of soil left where it was lost down to the rock; numeric

// How far the plane may look on either side before it meets the outline (or the house) again.
struct Limits {
  double inside = 0.0;   // m, > 0
  double outside = 0.0;  // m, > 0
};
Limits limits_at(const Model& model, const StationPlace& place);

// The section between x = −outside and x = inside; of a side that reaches farther than `near`, only
// as far as the first point of the ground beyond it. What is there is the same, bit for bit.
VerticalSection section_at(const Model& model, const BuriedParts& parts, const StationPlace& place,
                           double inside, double outside,
                           double near = std::numeric_limits<double>::infinity());

// Kinds of piece that do not count there. Nothing runs on under a gate but a footing: a skirt there
// would be cut through or walked on.
std::uint32_t not_under(const StationPlace& place);

// What is buried in two half planes, the one's part with x > 0 and the other's with x < 0.
std::vector<Piece> cut_halves(const BuriedParts& parts, const StationPlace& place,
                              const CutPlane& inner, const CutPlane& outer, double inside,
                              double outside);

// The model lays a little soil over a footing's top; the fence stands on it all the same. Where
// the plane cuts a footing under the fence line, its panel goes down to the footing.
void stand_on_footing(VerticalSection& section);

// A house's footing is not a part of the model: its section, down to y = `foot`.
void add_footing(const Footing& footing, double foot, VerticalSection& section);

}  // namespace hummock::dig
