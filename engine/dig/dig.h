// Dig: the shortest tunnel out under the barrier. Model: DESIGN §4.4.
//
// At stations along the whole boundary, round its corners and round every house, the model is cut
// by a vertical plane square to the fence, and the tunnels in that plane are measured
// (engine/dig/section/section_paths.h: exact). Where the ground nearest to the first or last bend
// of the shortest lies aside, as on every slope along the fence, each half of the plane is turned
// about its level line to lean that way, and the shorter tunnel counts (lean_section.h: exact in
// each half); where those are shortest, stations stand closer (between_places.h). Two figures
// belong to a station, each least over all tunnels there: the depth a tunnel must reach, below the
// ground straight above (of the vertical plane), and the length of the shortest. The animal gets
// out there when one tunnel is both no deeper than its dig_depth and no longer than its dig_length;
// so the length that counts is that of the shortest tunnel among those no deeper than dig_depth. An
// animal whose dig_depth or dig_length is 0 does not dig.
//
// Limits. The animal is a point and its tunnel has no width, so a tunnel for a body is deeper and
// longer than said. The tunnel stays in the station's two half planes. Where ground and what is
// buried run on alike along the fence none is shorter: 2 d cos g under a skirt d deep up a slope of
// g (tests/dig/slopes.cpp). Elsewhere that is a search, not a proof: over mounds up to 0.4 m high
// one pulled taut in space was shorter by 0.07 % at most in 100 random yards
// (tests/dig/askew_tunnels.cpp). A single station may tell more than its own shortest. Where what
// is buried changes along the fence (the end of an apron, of a skirt, a gate, another section, a
// corner) tunnels askew are tried from either side of that place: the way inside and the way
// outside each lean along the fence by 0, 45 or 80 degrees either way, in any pairing, as one sheet
// folded on the upright line through the place. That finds every tunnel that slips past a square
// end; it is a search, not a proof, for tunnels that bend more than once on plan. Snow is no soil:
// depth and length are in the ground below it. Stones, trees and water are soil here. Under a gate
// only a footing counts (common practice, no source): a skirt or apron drawn along the whole edge
// is not taken to run on below a leaf that swings over it. A house has what its footing and floor
// say: nothing buried and an earth floor when they say nothing; what a boundary section buries
// along the same line counts too. A house wall with yard on its other side leads into the house,
// not out, and never fails the check. Rock (or liner) is soil_depth below the lower of the surveyed
// and the finished ground, as they were before any soil was lost at the fence. Posts do not count
// as barrier below ground. Where the modelled margin is shorter than the animal's dig_length, or
// than a length a requirement asks for, the ground beyond it is laid for this analysis from the
// site file (wider_ground.h): what comes up there is never taken for level.
//
// Burrows. A drawn burrow is taken to be open from the ground down to its full depth all along its
// path, widened by half its diameter, as the file does not say how it falls: its bottom is as deep
// below the ground straight above, or below the straight line from the ground at one point of its
// path to that at the next, whichever is lower. It is not `within` when its path leaves the
// outline, when it meets an apron or a footing (a house's too), or when what is left to dig from it
// to the ground outside, past any edge of the fence within reach (looked at every 0.1 m along and
// down, and closer about the shortest: a search), is within dig_length and no deeper than dig_depth
// or than the burrow already is. What it leaves to dig is a tunnel out like a station's: the least
// length is over both, and burrows are looked at as far from the fence as a requirement's length
// asks.
//
// Cost: linear in the number of stations; spread over threads in fixed blocks, same bits for any
// number of threads.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/model/model.h"

namespace hummock::dig {

struct Settings {
  double station_spacing = 0.10;  // m, > 0
};
struct Station {
  Vec2 at;                    // on the fence line, local
  int section = -1;           // or a house
  std::string thing;          // section, gate or house name
  double least_depth_m = 0;   // below the ground straight above, on the tunnel of least depth
  double least_length_m = 0;  // of the shortest tunnel
  bool closed = false;        // rock or liner leaves no way under
  std::string weakness;       // "under the skirt", "round the apron's inner edge" …
  std::vector<Vec3> tunnel;   // only at the worst stations: the tunnel that counts
  // Depth and length of that one tunnel: the shortest within dig_depth, else the shortest of all.
  double tunnel_depth_m = 0, tunnel_length_m = 0;
  bool askew = false;              // sideways, past the end of what is buried beside it
  bool leans = false;              // along the fence, as the ground rises or falls there
  double depth_of_shortest_m = 0;  // greatest depth of the shortest tunnel
  std::optional<double> length_within_depth_m;  // shortest no deeper than dig_depth, if any
  bool way_out = true;  // false: through a house wall between house and yard
  bool fails = false;   // the animal gets out here
};
struct BurrowRow {
  std::string name;
  bool within = true;  // stays inside and above the barrier's foot
  double distance_to_barrier_m = 0;
  std::string note;
  std::optional<double> left_to_dig_m;        // from where it comes nearest, to the ground outside
  std::optional<double> left_at_any_depth_m;  // the same, however deep: a tunnel's length
};
struct WayUnder {
  Station worst;
  double along_m = 0;  // fence that can be dug under, in steps of the stations' spacing
};
struct Result {
  // Over all open stations that are ways out; the length also over what burrows leave to dig.
  double least_depth_m = 0, least_length_m = 0;
  std::string shortest_from;  // the burrow that leaves least to dig, where no station has less
  bool any_open = false;
  Station worst;     // least length among stations within dig_depth, else least depth
  bool met = false;  // nowhere within both dig_depth and dig_length, no burrow that leads out
  std::vector<Station> stations;
  std::vector<BurrowRow> burrows;
  std::vector<Station> worst_of_each;  // of every section, gate and house, with their tunnels
  // Every way out under the barrier, of each thing and side the worst, with how much of it fails.
  std::vector<WayUnder> ways_under;
};
// Throws InputError when the ground beyond a short margin would be too large, or its survey cannot
// be read again; asserts spacing > 0. May throw Cancelled.
Result analyse(const Model& model, const Settings& settings = {}, const Progress& progress = {});

}  // namespace hummock::dig
