// Service: where a keeper comes with a barrow.
//
// Answers which ground of the yard a loaded barrow reaches from the gates, and whether every place
// that is tended (den, house, water) can be come to with it.
//
// Model. A barrow with its keeper is a disc of kBarrowWidth on the nodes of the ground. It goes
// where every node under the disc is inside the outline, no steeper than kSteepest, in no solid
// (den and house too) and not in water, and no thing in the yard stands in the disc, however thin.
// It starts before each gate that is wide enough, and goes on along x and y as far as it comes. A
// place is come to where ground under the disc lies within kArm of its outline.
//
// Limits. Known to a cell: a lane is let through or closed when its width is within a cell of the
// barrow's. Slopes are Horn's, over three nodes; steps lower than a node's slope shows are not
// seen, nor soft ground, headroom, turning room, or sheets inside the yard. Bridges, ramps and
// decks are no ground: a way over them is not found. House doors are no start, for nothing is known
// of the way to them from outside. A place that is cut off can still be served on foot, by hand or
// over the fence: it is worth a look, no more.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::service {

// m, 30 in: least width of a runway for barrows on scaffolds, 34 Pa. Code 6.27(a) as of November
// 2024. A rule of building sites, taken for want of one for enclosures.
inline constexpr double kBarrowWidth = 0.762;
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
  bool reaches = false;  // the barrow gets onto the ground behind it
};
struct Place {
  std::string name;
  std::string kind;  // "den", "house", "water"
  Vec2 at;           // the middle of its outline, local coordinates
  bool reached = false;
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

}  // namespace hummock::service
