// Leap: can it get out, from what, and how far must that boulder move. Model: DESIGN §4.3.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/grid.h"

namespace hummock::leap {

struct Settings {
  double resolution = 0.05;      // m, spacing of surface samples, > 0
  double search_limit = 2.0;     // efforts up to this × leap_height are searched
  double required_margin = 1.0;  // escape demand ÷ leap height that the brief asks for, >= 1
  int max_results = 0;           // 0 = all
};

enum class StepKind { walk, climb, leap };
struct Step {
  Vec3 from, to;  // local, m
  StepKind kind = StepKind::walk;
  double effort_m = 0.0;   // 0 for walk and climb
  std::string from_thing;  // name of what it stands on
  std::string to_thing;
  std::vector<Vec3> arc;  // the flight or path, for drawing
};

enum class Verdict { clear, tight, a_way_out, cannot_be_gained };
struct ObjectRow {
  std::string name;
  int object = -1;         // index into site.objects; -1 = den, house …
  Vec3 top;                // highest point one can stand on
  double top_m = 0;        // above the ground under it
  bool reachable = false;  // within the species' leap
  double demand_m = 0;     // to gain it
  std::optional<double>
      effort_to_boundary_m;         // from its cheapest point; nothing = beyond the limit
  double boundary_margin = 0;       // effort ÷ leap height (infinite when nothing: see bounded)
  double boundary_clearance_m = 0;  // least distance of its envelope at full leap to barrier's top
  std::optional<double> effort_to_overhang_tip_m;
  std::optional<double> effort_to_roof_m;
  std::optional<double> roof_clearance_m;
  Verdict verdict = Verdict::clear;
  std::optional<double> move_m;   // least horizontal shift inward
  Vec2 move_towards;              // unit
  std::optional<double> lower_m;  // least lowering
};

struct Result {
  std::optional<double> escape_demand_m;  // nothing: none within the limit
  double bounded_below_m = 0;             // demand is at least this
  double resolution_bound_m = 0;          // demand understated by at most this
  double margin = 0;                      // escape demand (or bound) ÷ leap height
  std::vector<Step> route;
  std::string over;  // what it goes over, e.g. "south run"
  std::string how;   // "over the barrier's top" | "through the roof" | …
  std::vector<ObjectRow> objects;
  struct SweepRow {
    double leap_height_m;
    double leap_distance_m;
    bool escapes;
    double margin;
    std::vector<std::string> ways_out;
  };
  std::vector<SweepRow> sweep;             // weaker, as given, stronger
  std::optional<double> roof_clearance_m;  // least gap between full leap and the roof anywhere
  std::optional<Vec3> roof_strike_at;
  double living_area_m2 = 0;
};

Result analyse(const Model& model, const Settings& settings = {}, const Progress& progress = {});

// The tallest that anything may stand at each ground node, m above datum (DESIGN: height cap map).
geom::Raster height_cap(const Model& model, double ability_margin = 1.0);
// Leap demand at each ground node, m; NaN outside or beyond the limit.
geom::Raster ground_demand(const Model& model, const Settings& settings = {},
                           const Progress& progress = {});
const char* word(Verdict verdict);
const char* word(StepKind kind);

}  // namespace hummock::leap
