// A site as its file says it: plain data in SI units, nothing computed.
//
// Angles are radians here and degrees in the file. Coordinates are the file's own. Every table
// keeps the place it was written (`where`) so that a later stage can name it in an error. Ranges
// below are enforced by the reader (engine/site/read_site.h).
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/input_error.h"
#include "engine/base/input_file.h"
#include "engine/base/season.h"
#include "engine/site/house_light.h"
#include "engine/site/on_the_ground.h"
#include "engine/species/species.h"
#include "geometry/plan/polygon.h"
#include "geometry/vec.h"

namespace hummock {

using geom::Polygon;
using geom::Vec2;
using geom::Vec3;

struct HorizonPoint {
  double azimuth = 0.0;    // rad clockwise from true north, 0..2π
  double elevation = 0.0;  // rad, -0.2..π/2
};

struct Place {
  double latitude = 0.0;             // rad, north
  double longitude = 0.0;            // rad, east
  double elevation = 0.0;            // m, -500..9000
  std::string time_zone = "+00:00";  // fixed offset or IANA name
  double grid_north = 0.0;           // rad from true north to +y, clockwise
  double pressure = 0.0;             // hPa; 0 = from elevation (ISA)
  double temperature = 10.0;         // °C, yearly mean, for refraction; common practice, no source
  std::optional<bool> freezes;  // standing water bears the animal in winter; nothing = see ice.h
  std::vector<HorizonPoint> horizon;  // rising azimuth; empty = none
  Where where;
};

enum class FormKind { mound, hollow, ridge, bench, slope, smooth };
struct GroundForm {
  FormKind kind = FormKind::mound;
  Vec2 at;                 // mound, hollow, slope (the point left unmoved)
  std::vector<Vec2> path;  // ridge, >= 2 points
  Polygon outline;         // bench (needed); slope, smooth (empty = everywhere)
  double radius = 1.0;     // m, > 0: reach of the form; smooth: of the averaging
  double height = 0.0;     // m, > 0: mound, ridge up; hollow down (`depth` in the file)
  double level = 0.0;      // m: bench
  double batter = 0.0;     // m, >= 0: bench, width over which it blends into the ground outside
  double angle = 0.0;      // rad, 0..60°: slope
  double downhill = 0.0;   // rad clockwise from +y: slope, the way it falls
  Where where;
};

enum class Soil { unknown, sand, loam, clay };

struct Ground {
  std::optional<double> level;   // exactly one of level, raster, points
  std::filesystem::path raster;  // resolved against the site file's folder
  std::filesystem::path points;
  double cell = 0.10;                // m, 0.005..50
  double margin = 3.0;               // m, 0..1000
  std::optional<double> soil_depth;  // m, > 0; nothing = unlimited
  Soil soil = Soil::unknown;
  std::vector<GroundForm> forms;  // applied in order
  Where where;
};

enum class SheetKind { mesh, solid, glass };
enum class Fit { raked, stepped };
enum class Side { inside, outside };

// curved: an arc of `length` that leaves the fence upright and bends over evenly until its tip lies
// at `angle`.
enum class Profile { straight, curved };
struct Overhang {
  double length = 0.0;  // m along the panel, > 0
  double angle = 0.0;   // rad above horizontal, -60°..89°
  Profile profile = Profile::straight;
  std::optional<SheetKind> kind = {};  // nothing = as its section; mesh only on a section of mesh
};
// A stretch of a section's face of another make, all along it: sheet metal below, mesh above.
struct Band {
  double from = 0.0;  // m above the foot, straight from post to post, >= 0
  double to = 0.0;    // m, > from, at most the section's height
  SheetKind kind = SheetKind::solid;
  double aperture = 0.0;  // m, clear opening of a mesh; needed for mesh, else 0
  double wire = 0.003;    // m; common practice, no source
  std::string surface;    // "" = by kind, or rock | wood | bark | smooth
};
struct Apron {
  double length = 0.0;  // m, > 0
  double depth = 0.0;   // m below ground, >= 0
  Side side = Side::inside;
};
struct Footing {       // concrete under the fence line
  double depth = 0.0;  // m below ground, > 0
  double width = 0.2;  // m, > 0
};

struct Section {
  std::string name;
  std::vector<int> edges;  // edge i runs from outline[i] to outline[i+1]
  SheetKind kind = SheetKind::mesh;
  double height = 0.0;  // m above the ground at each post, > 0
  Fit fit = Fit::raked;
  double panel = 2.0;  // m between posts, > 0; the last panel of an edge takes the rest evenly
  std::optional<Overhang> overhang;
  double aperture = 0.0;  // m, clear opening of a mesh; needed for mesh, else 0
  double wire = 0.003;    // m, wire diameter of a mesh; common practice, no source
  double buried = 0.0;    // m below ground, >= 0, vertical, from the ground's surface down
  std::optional<Apron> apron;
  std::optional<Footing> footing;
  std::string surface;  // "" = by kind (mesh → mesh, else smooth), or rock | wood | bark | smooth
  bool guest_view = false;
  double joint_gap = 0.0;   // m, gap left between neighbouring panels, >= 0
  double cap = 0.0;         // m, a smooth solid sheet from the top down, >= 0, at most the height
  std::vector<Band> bands;  // apart from each other and from the cap
  bool hot_wire = false;    // noted, never credited: the answers take it as off
  Where where;
};

struct Vestibule {
  double depth = 0.0;  // m outwards, > 0
  bool second_gate = false;
  bool window = false;  // the keeper sees in before opening
  bool roofed = false;
};
struct Gate {
  std::string name;  // "gate 1" when not given
  int edge = 0;
  double from = 0.0;       // m along the edge, in the file's direction
  double width = 0.0;      // m
  double height = 0.0;     // m
  double under_gap = 0.0;  // m, >= 0
  double side_gap = 0.0;   // m, >= 0
  bool window = false;
  bool opens_inwards = true;
  std::optional<Vestibule> vestibule;
  Where where;
};
struct Drain {  // a hole through the barrier
  std::string name;
  int edge = 0;
  double from = 0.0;      // m along the edge
  double width = 0.1;     // m
  double height = 0.1;    // m
  double sill = 0.0;      // m above ground
  double aperture = 0.0;  // m of its grille; 0 = open
  Where where;
};
struct Boundary {
  Polygon outline;                // simple; as in the file (either winding)
  std::vector<Section> sections;  // cover every edge once
  std::vector<Gate> gates;
  std::vector<Drain> drains;
  Where where;
};

struct Roof {
  SheetKind kind = SheetKind::mesh;   // mesh or solid
  std::optional<Polygon> outline;     // nothing = the boundary
  std::optional<double> height;       // m above datum, or
  std::optional<double> above_fence;  // m above the fence tops
  double sag = 0.0;                   // m at the middle, >= 0
  double aperture = 0.0;
  double wire = 0.003;
  Where where;
};

enum class ObjectKind { boulder, log, tree, box, post, platform, mesh };
struct Crown {
  std::string shape = "ellipsoid";  // ellipsoid | cone | cylinder
  Vec3 size;                        // m: width x, depth y, height z
  double base = 0.0;                // m above ground to its underside
  double leaf_area_density = 0.0;   // m²/m³, >= 0
  std::optional<Season> bare;
};
struct Object {
  std::string name;  // unique
  ObjectKind kind = ObjectKind::box;
  Vec2 at;
  double z = 0.0;     // m lifted off the ground
  double lean = 0.0;  // rad from upright, towards its own +x (then turned)
  double turn = 0.0;  // rad counter-clockwise
  Vec3 size;          // m; log: length, diameter, diameter; post: d, d, height;
                      // platform: length, width, height of the deck's top
  std::uint32_t seed = 0;
  bool climbable = false;       // can be scrambled up at any slope
  std::string surface;          // "" = by kind: boulder, mesh rock; log, tree bark; else wood
  double trunk_diameter = 0.0;  // tree
  double trunk_height = 0.0;
  std::optional<Crown> crown;
  std::filesystem::path file;  // mesh
  double scale = 1.0;
  std::string up = "z";  // mesh: x | y | z
  Where where;
};

struct Den {
  std::string name;
  Vec2 at;
  Vec3 size;             // m: length, width, height
  double turn = 0.0;     // rad; the opening faces its own +x
  double opening = 0.0;  // m, diameter
  Where where;
};
struct Burrow {
  std::string name;
  Vec2 mouth;
  std::vector<Vec2> path;  // from the mouth on; may be empty
  double depth = 0.0;      // m below ground at its deepest
  double diameter = 0.0;   // m; 0 = not given
  Where where;
};
struct Water {
  std::string name;
  Polygon outline;
  std::optional<double> level;  // m above datum: the ground is the bed; or
  std::optional<double> depth;  // m below the lowest rim: the basin is dug by the model
  double side_slope =
      0.5236;  // rad, sides of a dug basin, 1°..89°; 30° is common practice, no source
  bool drain = false;
  Where where;
};
struct Viewing {
  std::string name;
  int edge = 0;
  double from = 0.0;        // m along the edge
  double width = 0.0;       // m
  double sill = 0.0;        // m above ground, lower edge of what one sees through
  double eye_height = 1.5;  // m above the ground where guests stand; common practice, no source
  double stand_off = 0.5;   // m outside the boundary; common practice, no source
  Where where;
};
struct WallOpening {  // door or vent of a house
  std::string name;
  int edge = 0;  // of the house's outline
  double from = 0.0;
  double width = 0.0;
  double height = 0.0;
  double sill = 0.0;
  double aperture = 0.0;  // m of its grille; 0 = open
};
struct House {
  std::string name;
  Polygon outline;
  double height = 0.0;                               // m, > 0
  std::optional<std::array<double, 2>> temperature;  // °C, low and high held
  std::optional<WallOpening> door;
  std::vector<WallOpening> vents;
  int hides = 0;
  int climb_places = 0;
  bool furnished() const { return hides > 0 || climb_places > 0; }
  std::optional<Footing> footing;  // under its walls; nothing = not known, taken as none
  bool solid_floor = false;        // no digging in or out through it (`floor` in the file)
  std::optional<HouseLight> light;
  Where where;
};
struct Surrounding {  // outside the boundary: casts shade, stops sight
  std::string name;
  std::string kind = "building";  // building | hedge | wood
  Polygon outline;
  double height = 0.0;             // m above ground there
  double base = 0.0;               // m
  double leaf_area_density = 0.0;  // 0 = opaque
  std::optional<Season> bare;
  Where where;
};

// Something short that is signed off as it is, by name and with a reason.
struct Waiver {
  std::string what;  // the key of the results
  std::string reason;
  std::string by;
  std::string on;  // the day, 2026-05-01
  Where where;
  std::string of = {};  // the name of the brief file that asks; empty = this file or the species'
};

struct SitingWeights {  // burrow siting; each >= 0
  double shade = 3.0;
  double soil = 2.0;
  double slope = 1.0;
  double ponding = 2.0;
  double fence = 2.0;
  int count = 3;         // spots wanted, 1..50
  double spacing = 2.0;  // m between spots
};

struct Site {
  int format = 1;
  std::string name;
  std::string story;                   // a few lines for the reader
  int animals = 1;                     // >= 1
  std::filesystem::path file;          // where it was read from
  std::filesystem::path species_file;  // resolved
  Species species;
  std::optional<Place> place;
  Ground ground;
  Boundary boundary;
  std::optional<Roof> roof;
  std::vector<Object> objects;
  std::vector<Planting> plantings;
  std::vector<Den> dens;
  std::vector<Burrow> burrows;
  std::vector<Water> waters;
  std::vector<Viewing> viewings;
  std::vector<House> houses;
  std::vector<Surrounding> surroundings;
  std::vector<Surfacing> surfaces;  // in the order they are laid
  std::vector<Station> stations;
  std::vector<Requirement> requirements;  // the site's own, beside the species'
  std::vector<Either> eithers;
  std::vector<std::string> brief_files;  // as written, from the site file's folder
  std::vector<BriefFile> briefs;         // of those, in order
  std::optional<int> offspring;  // young expected, >= 0; nothing = not said: some, number not known
  std::vector<Confirmation> confirmations;
  std::vector<Waiver> waivers;
  std::optional<Vec2> leap_start;  // [leap] start
  std::optional<SitingWeights> siting;
  std::filesystem::path climate;      // hourly CSV, empty = none
  std::vector<std::string> accept;    // doubtful input taken on purpose (engine/site/doubtful.h)
  std::vector<std::string> warnings;  // odd but allowed
  std::vector<InputFile> read;        // the site, its species and briefs, as they were read
};

}  // namespace hummock
