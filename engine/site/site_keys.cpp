#include "engine/site/site_keys.h"

namespace hummock {
namespace {

const std::vector<std::string> kRequirementKeys{"what",  "at_least", "at_most", "between", "per",
                                                "up_to", "extra",    "source",  "note"};
const std::vector<std::string> kHoleKeys{"name",   "edge", "from",    "width",
                                         "height", "sill", "aperture"};

}  // namespace

const TableKeys& site_keys() {
  static const TableKeys keys{
      {"",
       {"format",   "name",        "story",  "animals",  "species", "climate", "place", "ground",
        "boundary", "roof",        "object", "planting", "den",     "burrow",  "water", "viewing",
        "house",    "surrounding", "siting", "leap",     "require", "accept"}},
      {"place",
       {"latitude", "longitude", "elevation", "time_zone", "grid_north", "pressure", "temperature",
        "horizon"}},
      {"ground", {"level", "raster", "points", "cell", "margin", "soil_depth", "soil", "form"}},
      {"ground.form",
       {"kind", "at", "path", "outline", "radius", "height", "depth", "level", "batter", "angle",
        "downhill"}},
      {"boundary", {"outline", "section", "gate", "drain"}},
      {"boundary.section",
       {"name", "edges", "kind", "height", "fit", "panel", "overhang", "aperture", "wire", "buried",
        "apron", "footing", "surface", "guest_view", "joint_gap"}},
      {"boundary.section.overhang", {"length", "angle"}},
      {"boundary.section.apron", {"length", "depth", "side"}},
      {"boundary.section.footing", {"depth", "width"}},
      {"boundary.gate",
       {"name", "edge", "from", "width", "height", "under_gap", "side_gap", "window",
        "opens_inwards", "vestibule"}},
      {"boundary.gate.vestibule", {"depth", "second_gate", "window", "roofed"}},
      {"boundary.drain", kHoleKeys},
      {"roof", {"kind", "outline", "height", "above_fence", "sag", "aperture", "wire"}},
      {"object",
       {"name", "kind", "at", "z", "lean", "turn", "size", "seed", "climbable", "surface", "trunk",
        "crown", "file", "scale", "up"}},
      {"object.crown", {"shape", "size", "base", "leaf_area_density", "bare"}},
      {"planting", {"name", "outline", "height", "cover", "bare"}},
      {"den", {"name", "at", "size", "turn", "opening"}},
      {"burrow", {"name", "mouth", "path", "depth", "diameter"}},
      {"water", {"name", "outline", "level", "depth", "side_slope", "drain"}},
      {"viewing", {"name", "edge", "from", "width", "sill", "eye_height", "stand_off"}},
      {"house",
       {"name", "outline", "height", "temperature", "door", "vents", "hides", "climb_places",
        "footing", "floor"}},
      {"house.door", kHoleKeys},
      {"house.vents", kHoleKeys},
      {"house.footing", {"depth", "width"}},
      {"surrounding", {"name", "kind", "outline", "height", "base", "leaf_area_density", "bare"}},
      {"siting", {"shade", "soil", "slope", "ponding", "fence", "count", "spacing"}},
      {"leap", {"start"}},
      {"require", kRequirementKeys},
  };
  return keys;
}

const std::vector<std::string>& ability_names() {
  static const std::vector<std::string> names{
      "leap_height",         "leap_distance", "grip",       "cling_leap",
      "stand_slope",         "climbs",        "body",       "least_opening",
      "dig_depth",           "dig_length",    "wade_depth", "eye_height",
      "outdoor_low",         "crouch",        "reach",      "perch",
      "climbs_past_upright", "hangs",         "swims",      "leap_from_water"};
  return names;
}

const TableKeys& species_keys() {
  static const TableKeys keys = [] {
    TableKeys all{{"", {"format", "name"}}, {"require", kRequirementKeys}};
    for (const std::string& ability : ability_names()) {
      all[""].push_back(ability);
      all[ability] = {"value", "source", "measures", "evidence"};
    }
    all[""].push_back("require");
    return all;
  }();
  return keys;
}

const std::vector<std::string>& figure_groups() {
  static const std::vector<std::string> groups{
      "space", "relief", "leap",   "dig",        "openings",   "entry",  "shade",
      "sight", "water",  "houses", "earthworks", "quantities", "burrows"};
  return groups;
}

}  // namespace hummock
