// What grows on the ground, what it is made of and what is set out on it, as the site file says it.
#pragma once

#include <optional>
#include <string>

#include "engine/base/input_error.h"
#include "engine/base/season.h"
#include "geometry/plan/polygon.h"
#include "geometry/vec.h"

namespace hummock {

using geom::Polygon;
using geom::Vec2;

enum class PlantKind { unsaid, grass, reed, shrub, climber, tree };
enum class Leaf { unsaid, broad, needle };
struct Planting {
  std::string name;
  Polygon outline;
  double height = 0.0;  // m, > 0
  double cover = 0.0;   // 0..1 of sight and light stopped over its height
  std::optional<Season> bare;
  PlantKind kind = PlantKind::unsaid;
  Leaf leaf = Leaf::unsaid;
  bool evergreen = false;  // said to keep its leaves; never with `bare`
  Where where;
};
// What the ground is made of, laid over it: a later one lies over an earlier one.
enum class Material { sand, soil, loam, litter, gravel, turf, rock, concrete };
struct Surfacing {
  std::string name;
  Polygon outline;
  Material material = Material::sand;
  std::optional<double> depth;  // m, > 0; nothing = not known
  bool drains = false;          // said to let rain through; false = nobody said so
  Where where;
};
enum class StationKind {
  food,
  water_bowl,
  water_point,
  enrichment,
  sunning_rock,
  heat_lamp,
  scale,
  camera
};
// What is set out for the animal or its keepers. At least one of `at` and `on`.
struct Station {
  std::string name;
  StationKind kind = StationKind::food;
  std::optional<Vec2> at;  // nothing = the middle of the thing it is on
  std::string on;          // name of an object or den; "" = the ground or a house's floor
  double z = 0.0;          // m above what it is on, >= 0
  double reach = 0.3;      // m, how near the animal must come to use it; common practice, no source
  bool guard = false;      // heat lamp: said to have a guard; false = nobody said so
  Where where;
};

}  // namespace hummock
