// Sight: what guests see of the ground, and what stays hidden. Model: DESIGN §4.6.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/grid.h"

namespace hummock::sight {

struct Settings {
  double eye_spacing = 0.5;  // m between guests' eyes along a viewing place
  double seen_at = 0.10;     // least share of light that counts as seen
  double cell = 0.0;         // m; 0 = the ground's
};
struct HiddenPlace {
  Vec2 centre;
  double area_m2 = 0;
  bool room_to_lie = false;  // holds the animal's length × width
};
struct ViewRow {
  std::string name;
  double seen_share = 0;
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
  double seen_share = 0;
  double unseen_area_m2 = 0;
  double usable_area_m2 = 0;
  double guest_boundary_share = 0;
  std::vector<HiddenPlace> hidden;  // largest first
  std::vector<ViewRow> views;
  std::vector<ScreenRow> screens;
  std::vector<DenPair> dens;
  geom::Raster seen_by;  // how many viewing places see each node; NaN outside
};
Result analyse(const Model& model, const Settings& settings = {}, const Progress& progress = {});

}  // namespace hummock::sight
