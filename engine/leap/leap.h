// Leap: can it get out, from what, and how far must that boulder move. Model: DESIGN §4.3.
//
// What a leap costs is in effort.h, what counts as a place and as a way out in places.h, which
// flights are tried in links.h, and how the cheapest route is found in minimax.h. In short:
//   living ground  the ground inside the outline, less houses, solids and water deeper than the
//                  animal wades; or what it can walk to from the site's start. Places for ways out
//                  are where the animal can be: crouched, on a ridge, afloat (places.h).
//   demand         of a place: the least leap height with which it can be gained from there, over
//                  routes of leaps, walks and climbs; blocked flights are tried steeper and
//                  flatter.
//   escape         gaining a barrier's top or an overhang's tip, a free edge of the roof, or what
//                  of a thing lies beyond the outline above the barrier.
// Every demand is bounded from both sides: the true demand of the model (DESIGN §4.3, for a point
// animal) is not below `escape_demand_m` and not above it by more than `resolution_bound_m`. The
// lower side counts the pieces of surface round the samples; the upper side is the effort of the
// route itself, flown from point to point. Not seen by the lower side: openings between obstacles
// narrower than about one `resolution`, and walks within one place that are in truth cut off.
//
// The figures are of the species file, with what they are worth: the program never calls a design
// safe.
//
// Not modelled, and so no part of any figure: kicking off a wall, a run-up beyond what the leap
// figures hold, animals on each other's backs, things an animal can shift.
//
// A search that stops early (`complete` false) leaves bounds from below: what it has not settled is
// taken to be gained, or left by, just above what it has (never clear for that reason).
//
// Throws InputError: leap height or distance not above 0, no living ground, a start outside.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::leap {

// Standing water in winter: it bears the animal, it does not, or nobody has said. Where it bears,
// every water is a walk at its level, left with the whole leap. Unknown is answered as open water,
// and the answer says when it rests on that (rows/rests_on.h).
enum class Ice { unknown, none, bears };

struct Settings {
  double resolution = 0.05;      // m, spacing of surface samples, > 0
  double search_limit = 2.0;     // efforts up to this × leap_height are searched, and at least to
                                 // 1.25 × required_margin
  double required_margin = 1.0;  // escape demand ÷ leap height that the brief asks for, >= 1
  int max_results = 0;           // 0 = all; else the rows nearest to a way out
  bool climb_inverted = false;   // climbs beneath overhangs it can climb (places.h, Things)
  Ice ice = Ice::unknown;        // on the site's waters
  bool remedies = true;          // seek and prove them (remedies.h): a whole answer for each tried
};

enum class StepKind { walk, climb, leap };
struct Step {
  Vec3 from, to;  // local, m
  StepKind kind = StepKind::walk;
  double effort_m = 0.0;   // 0 for walk and climb
  std::string from_thing;  // name of what it stands on
  std::string to_thing;
  std::vector<Vec3> arc;  // the flight or path, for drawing; none: taken, not found (minimax.h)
};

// clear             it can be gained (or might be), and from it no way out is within reach
// tight             the same, but short of the brief or by less than kTightMargin
// a way out         gained and left over the barrier within the animal's leap
// cannot be gained  beyond its leap, with the brief's margin
enum class Verdict { clear, tight, a_way_out, cannot_be_reached };
inline constexpr double kTightMargin = 1.1;  // common practice, no source

// Beyond these the figure is noted as doubtful (bounds of ours, common practice, no source: record
// lists give the puma 7 m up, and compilations 13.7 m (45 ft) long with a run: anecdotes).
inline constexpr double kAbsurdLeap = 8.0;       // m, height; common practice, no source
inline constexpr double kAbsurdDistance = 20.0;  // m; common practice, no source

// A change of one thing after which, the whole site solved again, the thing meets the brief,
// nothing else is worse, and the yard's demand is what is asked, or no less than without the thing.
struct Shift {
  enum class Kind { move, lower } kind = Kind::move;
  double by_m = 0.0;
  double bearing_deg = 0.0;  // move: clockwise from the plan's north
  bool proven = false;       // those that are not are left out of rows
  bool share_only = false;   // the yard would be short of the brief without the thing too
};

struct ObjectRow {
  std::string name;
  int object = -1;             // index into site.objects; -1 = den, house …
  Vec3 top;                    // highest point one can stand on
  double top_m = 0;            // above the ground under it
  bool reachable = false;      // within the species' leap
  double required_leap_m = 0;  // to gain it
  std::optional<double>
      effort_to_boundary_m;            // from its cheapest point; nothing = beyond the limit
  std::optional<double> effort_out_m;  // the same by way of other raised things: never more
  double boundary_margin = 0;          // effort ÷ leap height (infinite when nothing: see bounded)
  double boundary_clearance_m = 0;  // least distance of its envelope at full leap to barrier's top
  double clearance_m = 0;  // the same, and where the envelope is above it, minus by how much
  bool complete = true;    // false: its search stopped early; what is nothing is not settled
  std::optional<double> effort_to_overhang_tip_m;
  std::optional<double> effort_to_roof_m;
  std::optional<double> roof_clearance_m;
  Verdict verdict = Verdict::clear;
  std::optional<double> move_m;   // proven horizontal shift
  Vec2 move_towards;              // unit
  std::optional<double> lower_m;  // least lowering
  std::vector<Shift> remedies;    // proven ones
  bool remedy_sought = false;     // with none listed: none found
  std::string over;               // what the cheapest leap out from it goes over
};

// One stretch of the barrier or roof edge: the least demand over it, whatever the route.
struct WayRow {
  std::string over;  // "south run", a gate, "roof"
  std::string how;   // "over the barrier's top" …
  std::string from;  // the thing the last leap is from
  double required_leap_m = 0.0;
  bool within_leap = false;
  bool by_hole = false;  // of a house above the roof
};

struct Result {
  std::optional<double> escape_leap_m;  // nothing: none within the limit
  double bounded_below_m = 0;           // demand is at least this
  double resolution_bound_m = 0;        // demand understated by at most this
  double margin = 0;                    // escape demand (or bound) ÷ leap height
  std::vector<Step> route;
  std::string over;      // what it goes over, e.g. "south run"
  std::string how;       // "over the barrier's top" | "through the roof" | …
  bool by_hole = false;  // of a house above the roof: over nothing
  std::vector<ObjectRow> objects;
  struct SweepRow {
    double leap_height_m;
    double leap_distance_m;
    bool escapes;
    double margin;
    std::vector<std::string> ways_out;
  };
  std::vector<SweepRow> sweep;             // weaker, as given, stronger
  std::optional<double> roof_clearance_m;  // least, of the standing body at full leap, anywhere
  std::optional<Vec3> roof_strike_at;
  double living_area_m2 = 0;
  std::vector<WayRow> ways;  // by rising demand, within the search limit
  bool complete = true;      // false: the search stopped early; demands are still bounds from below
  std::vector<std::string> notes;  // what was assumed
};

Result analyse(const Model& model, const Settings& settings = {}, const Progress& progress = {});

// The same demands on the faces of every part, for drawing and for PLY and GLB: one value a mesh
// vertex, by part name (parts of one name: numbered as in Model::parts, "name#2" for the second).
// On a place its demand; elsewhere the least effort with which the point can be touched, flights
// taken as free (a bound from below). NaN beyond the limit.
std::map<std::string, std::vector<float>> surface_required_leap(const Model& model,
                                                                const Settings& settings = {},
                                                                const Progress& progress = {});

// The tallest that anything may stand at each ground node, m above datum (DESIGN: height cap map).
geom::Raster height_cap(const Model& model, double ability_margin = 1.0);
// Leap demand at each ground node, m; NaN outside or beyond the limit.
geom::Raster ground_required_leap(const Model& model, const Settings& settings = {},
                                  const Progress& progress = {});
const char* to_string(Verdict verdict);
const char* to_string(StepKind kind);

}  // namespace hummock::leap
