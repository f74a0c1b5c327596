// Sight: what guests see of the ground, and what stays hidden.
//
// Eyes stand along each viewing place from end to end, at both ends at least and at most
// `eye_spacing` apart, as far outside the boundary as it says, `eye_height` above the ground there.
// A section marked `guest_view` is a viewing place along the whole of each of its edges, with the
// stand-off and eye height of a viewing place that gives none: guests stand wherever they can.
// Guests walk: where the eyes of one place leave ground unseen, eyes are put midway between them,
// and again, until a halving shows less than kSettled of the usable ground more or they stand
// kTwoEyes apart. What only eyes between those see counts as unseen: each further halving would
// show about twice the last, so some 2 % of the ground at most where it settled early (slits of a
// few centimetres, one by one). A line of sight goes to the animal's eye height above a node of the
// usable ground. Where it crosses the boundary within the viewing's width it passes not below its
// sill; there and beside it (a guest looks through all that is clear) what stands decides: glass
// passes all of it, mesh its openness at that angle, a solid fence nothing (one sees over its top
// if tall enough). Solids stop it, crowns and plantings by Beer–Lambert over the way through them,
// T = exp(−½ · leaf area density · length), in leaf unless `bare`; a planting of cover c and height
// H passes (1 − c)^(length/H). The ground stops it exactly as its triangles stand
// (geometry/terrain/viewshed.h); so does everything else by rays (float32; the ray library's robust
// mode). A node is seen where some eye keeps `seen_at` of the sight. No distance limit, no glare,
// no reflection in the glass, no guest hiding another.
//
// Eyes inside an opaque solid (guests in a hall drawn round their place: a building has no windows
// here) see nothing, and that is not known: what is told is then the least that guests see, and the
// figures of what is unseen are incomplete.
//
// Seasons. Where some plant has a bare season, both ends are looked at: every plant in leaf, and
// every one that falls bare at once, whatever their dates. What is unseen (area, places, dens out
// of each other's sight, the map) is told with leaves down, when least is hidden; the share that
// guests see, the rows of viewing places and the screens are told in leaf, when least is seen.
//
// Slats and posts. A screen of things no wider than kNarrow cells hides ground in stripes between
// which nodes may miss what is seen: such objects hide nothing in what is told as unseen.
//
// Usable ground: nodes the animal can live on ("can live", engine/usable/usable_ground.h). Each
// node stands for one cell; the error of an area is at most its outline's length times the cell.
//
// Screens: a thing's figure is the area that some eye would see if that thing alone were gone. It
// is found on a sample of at most about 20 000 hidden nodes, spread evenly.
//
// Dens: two dens are in sight of each other when some line between their openings (of the middle
// and the two sides of each), at the animal's eye height, passes `seen_at`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::sight {

// Least distance between eyes, m: the mean between the two eyes of one adult (Dodgson 2004, Proc.
// SPIE 5291:36-46).
inline constexpr double kTwoEyes = 0.063;
// Of a cell: what is no wider on plan hides stripes that nodes do not tell; numeric, a setting.
inline constexpr double kNarrow = 1.5;
inline constexpr double kSettled = 0.003;  // share of the usable ground; numeric, a setting

struct Settings {
  double eye_spacing = 0.5;  // m between guests' eyes along a viewing place, > 0
  double seen_at =
      0.10;             // least share of light that counts as seen, > 0; common practice, no source
  double cell = 0.0;    // m; 0 = the ground's; else rounded to a whole multiple of it
  bool bare = false;    // the bare season alone, nothing in leaf
  bool screens = true;  // say what hides (no figure asks it)
};
struct HiddenPlace {
  Vec2 centre;  // of its nodes, the one nearest their mean
  double area_m2 = 0;
  bool room_to_lie = false;  // holds the animal's length × width
};
struct ViewRow {
  std::string name;
  double seen_share = 0;
  int eyes = 0;
  std::string note;  // why it sees little: its fence passes no sight
  // Eyes of it inside an opaque solid, and the solid's name: what they see is not known.
  int eyes_inside = 0;
  std::string inside;
};
struct ScreenRow {  // what one thing hides: area seen more if it were not there
  std::string thing;
  double hides_m2 = 0;
};
struct DenPair {
  std::string a, b;
  bool in_sight = false;
};
struct Result {
  double seen_share = 0;      // in leaf
  double unseen_area_m2 = 0;  // leaves down
  double usable_area_m2 = 0;
  std::optional<double> unseen_in_leaf_m2;  // only where some plant has a bare season
  double guest_boundary_share = 0;          // viewing places and sections with guest_view
  std::vector<HiddenPlace> hidden;          // largest first
  std::vector<ViewRow> views;
  std::vector<ScreenRow> screens;  // what hides most first
  std::vector<DenPair> dens;
  geom::Raster seen_by;  // how many viewing places see each node; NaN off the usable ground
};
// Is there a viewing place, or a section guests look in along?
bool anyone_looks(const Site& site);
// Throws std::invalid_argument for settings out of range.
Result analyse(const Model& model, const Settings& settings = {}, const Progress& progress = {});

}  // namespace hummock::sight
