// Service: where a keeper comes with a barrow.
//
// Answers which ground of the yard a loaded barrow reaches from the gates, and whether every place
// that is tended (den, house, water) can be come to with it.
//
// Model. A barrow with its keeper is a disc of kBarrowWidth on the nodes of the ground. It goes
// where every node under the disc is inside the outline, no steeper than kSteepest, in no solid
// (den and house too) and not in water, and no thing in the yard stands in the disc, however thin.
// It starts before each gate that is wide enough and to which it comes from the edge of the
// modelled ground, through both its doors (engine/keepers/way_in.h), and goes on along x and y as
// far as it comes. A place is come to where ground under the disc lies within kArm of its outline.
// Where nothing to be tended is drawn, the ground of the yard is the one place.
//
// Shared. All ground inside the outline counts as ground an animal may be on, wherever it starts,
// and every house as a room of its that a door, vent or hole leads into which its head passes. A
// gate is shared where people on foot do not come to it, from outside or through a house that is no
// such room. A place is shared unless it lies outside the outline, or is a house that is no such
// room and whose own door people come to. That animals are shut away while people work, or fed
// through a fence, is not asked: the figure says where that is needed.
//
// Limits. Known to a cell: a lane is let through or closed when its width is within a cell of the
// barrow's. Slopes are Horn's, over three nodes; steps lower than a node's slope shows are not
// seen, nor soft ground, headroom, turning room, or sheets inside the yard. Bridges, ramps and
// decks are no ground in the yard: a way over them is not found. A way in through a house is by a
// gate of the fence that opens into it and the house's door; what stands in the house is not asked.
// A place that is cut off can still be served on foot, by hand or
// over the fence: it is worth a look, no more.
#pragma once

#include <string>
#include <vector>

#include "engine/brief/assumptions.h"
#include "engine/keepers/way_in.h"
#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::service {

using keepers::kBarrowWidth;
// Rise to run: steeper runways must have cleats, 34 Pa. Code 6.27(b) as of November 2024.
inline constexpr double kSteepest = 1.0 / 6.0;
// m, from the barrow's edge to the place: common practice, no source.
inline constexpr double kArm = 1.0;
// m, of the load and the handles: what stands lower is in its way. common practice, no source.
inline constexpr double kBarrowHeight = 1.0;

struct GateRow {
  std::string name;
  double width_m = 0.0;
  bool wide_enough = false;
  bool reaches = false;           // the barrow gets onto the ground behind it
  Vec2 at;                        // its middle, local coordinates
  keepers::WayIn barrow, people;  // from outside, and through it
  bool shared = true;             // people come to it only where an animal may be, or not at all
};
struct Place {
  std::string name;
  std::string kind;  // "den", "house", "water"; "yard": the ground of a yard without any
  Vec2 at;           // the middle of its outline, local coordinates
  bool reached = false;
  bool shared = true;          // people come to it only where an animal may be, or not at all
  keepers::WayIn people = {};  // of a house that is not shared: by its own door
  double away_m = 0.0;  // from the nearest ground a barrow is on; infinite when it is on none
};
struct Result {
  std::vector<GateRow> gates;
  std::vector<Place> places;
  double reached_area_m2 = 0.0;
  double reached_share = 0.0;  // of the plan area inside the outline
  double narrowest_gate_m = 0.0;
  geom::Raster reached;  // 1 under the disc, 0 elsewhere inside, NaN outside
};

Result analyse(const Model& model);

// What a way from outside rests on, where that is not modelled, leads through leaves, or is low.
RestsOn what_it_rests_on(const Result& result, const Model& model);

}  // namespace hummock::service
