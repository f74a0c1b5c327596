#include "engine/model/shapes/object_solids.h"

#include <algorithm>
#include <cmath>

#include "engine/model/shapes/boulder.h"
#include "engine/model/shapes/solids.h"
#include "engine/model/shapes/steady_turn.h"

namespace hummock {
namespace {

using geom::Heightfield;
using geom::Mesh;

// Lowest ground under the mesh's corners.
double lowest_ground_under(const Heightfield& ground, const Mesh& mesh) {
  double lowest = 1e300;
  for (const Vec3& v : mesh.vertices) lowest = std::min(lowest, geom::height_at(ground, xy(v)));
  return lowest;
}

// Over a plan rectangle, turned: corners and a net of points no wider than the ground's cell.
double lowest_ground_in(const Heightfield& ground, const Object& o) {
  const CosSin t = steady_cos_sin(o.turn);
  const auto steps = [&](double width) {
    return std::clamp(static_cast<int>(std::ceil(width / ground.grid.cell)), 1, 400);
  };
  const int nx = steps(o.size.x);
  const int ny = steps(o.size.y);
  double lowest = 1e300;
  for (int j = 0; j <= ny; ++j) {
    for (int i = 0; i <= nx; ++i) {
      const Vec3 p = turned({o.size.x * (static_cast<double>(i) / nx - 0.5),
                             o.size.y * (static_cast<double>(j) / ny - 0.5), 0.0},
                            t);
      lowest = std::min(lowest, geom::height_at(ground, o.at + xy(p)));
    }
  }
  return lowest;
}

double ground_at(const Heightfield& ground, const Object& o) {
  return geom::height_at(ground, o.at);
}

Mesh posed(Mesh mesh, const Object& o) {
  lean_and_turn(mesh, o.lean, o.turn);
  shift(mesh, at_height(o.at, 0.0));
  return mesh;
}

// How far the straight edge from a to b must rise to be clear of the ground; exact, for the ground
// is straight between its breaks.
double rise_needed(const Heightfield& ground, Vec3 a, Vec3 b) {
  double need = -1e300;
  for (double t : geom::ground_breaks(ground, xy(a), xy(b))) {
    const Vec3 p = geom::lerp(a, b, t);
    need = std::max(need, geom::height_at(ground, xy(p)) - p.z);
  }
  return need;
}

// Lifts the mesh so that none of its edges is under the ground and one touches it; then by the
// object's z.
void rest(const Heightfield& ground, const Object& o, Mesh& mesh) {
  double need = -1e300;
  for (const geom::Triangle& t : mesh.triangles) {
    for (std::size_t k = 0; k < 3; ++k) {
      need =
          std::max(need, rise_needed(ground, mesh.vertices[t[k]], mesh.vertices[t[(k + 1) % 3]]));
    }
  }
  shift(mesh, {0, 0, need + o.z});
}

Mesh boulder(const Heightfield& ground, const Object& o) {
  Mesh mesh = posed(boulder_stone(o.seed, o.size), o);
  const double sunk = lowest_ground_under(ground, mesh) - kSunk * o.size.z;
  shift(mesh, {0, 0, sunk - geom::bounds(mesh).lo.z + o.z});
  return mesh;
}

Mesh log(const Heightfield& ground, const Object& o) {
  Mesh mesh = posed(lying_round_solid(o.size.y, o.size.x, kRoundSides), o);
  rest(ground, o, mesh);
  return mesh;
}

Mesh box(const Heightfield& ground, const Object& o) {
  if (o.lean != 0.0) {
    Mesh mesh = posed(box_solid(o.size), o);
    rest(ground, o, mesh);
    return mesh;
  }
  const double here = ground_at(ground, o);
  const double down = o.z == 0.0 ? here - lowest_ground_in(ground, o) : 0.0;
  Mesh mesh = box_solid({o.size.x, o.size.y, o.size.z + down});
  shift(mesh, {0, 0, here + o.z - down});
  return posed(std::move(mesh), o);
}

Mesh upright(const Heightfield& ground, const Object& o, double diameter, double height) {
  const double foot = o.z == 0.0 ? kPostFoot : 0.0;
  Mesh mesh = posed(round_solid(diameter, -foot, height, kRoundSides), o);
  shift(mesh, {0, 0, ground_at(ground, o) + o.z});
  return mesh;
}

Mesh platform(const Heightfield& ground, const Object& o) {
  constexpr double kFree = 0.001;
  const double thick = std::min(kDeck, o.size.z / 2);
  const double leg = std::min({kLeg, o.size.x / 4, o.size.y / 4});
  Mesh mesh = box_solid({o.size.x, o.size.y, thick});
  shift(mesh, {0, 0, o.size.z - thick});
  const double here = ground_at(ground, o);
  const CosSin t = steady_cos_sin(o.turn);
  for (int k = 0; k < 4; ++k) {
    const Vec3 at{(k % 2 == 0 ? -0.5 : 0.5) * (o.size.x - leg),
                  (k / 2 == 0 ? -0.5 : 0.5) * (o.size.y - leg), 0.0};
    const double foot =
        o.z == 0.0 ? geom::height_at(ground, o.at + xy(turned(at, t))) - here - kLegFoot : -o.z;
    const double top = o.size.z - thick - kFree;
    if (foot >= top) continue;
    Mesh one = box_solid({leg, leg, top - foot});
    shift(one, at + Vec3{0, 0, foot});
    geom::append(mesh, one);
  }
  mesh = posed(std::move(mesh), o);
  shift(mesh, {0, 0, here + o.z});
  return mesh;
}

}  // namespace

Mesh object_solid(const Heightfield& ground, const Object& object) {
  switch (object.kind) {
    case ObjectKind::boulder:
      return boulder(ground, object);
    case ObjectKind::log:
      return log(ground, object);
    case ObjectKind::tree:
      return upright(ground, object, object.trunk_diameter, object.trunk_height);
    case ObjectKind::post:
      return upright(ground, object, object.size.x, object.size.z);
    case ObjectKind::platform:
      return platform(ground, object);
    case ObjectKind::box:
    case ObjectKind::mesh:
      return box(ground, object);
  }
  return {};
}

Mesh set_mesh(const Heightfield& ground, const Object& object, Mesh mesh) {
  const geom::Box3 own = geom::bounds(mesh);
  shift(mesh, {-own.centre().x, -own.centre().y, -own.lo.z});
  mesh = posed(std::move(mesh), object);
  const double foot = lowest_ground_under(ground, mesh) - geom::bounds(mesh).lo.z;
  shift(mesh, {0, 0, foot + object.z});
  return mesh;
}

namespace {

// A crown one metre wide and high over z = 0, stretched and put in place.
Mesh set_crown(const Heightfield& ground, const Object& object, const Crown& crown, Mesh mesh) {
  for (Vec3& v : mesh.vertices) {
    v = {v.x * crown.size.x, v.y * crown.size.y, crown.base + v.z * crown.size.z};
  }
  mesh = posed(std::move(mesh), object);
  shift(mesh, {0, 0, ground_at(ground, object) + object.z});
  return mesh;
}

}  // namespace

Mesh crown_solid(const Heightfield& ground, const Object& object, const Crown& crown) {
  Mesh mesh;
  if (crown.shape == "cone") {
    mesh = cone_solid(1.0, 0.0, 1.0, 24);
  } else if (crown.shape == "cylinder") {
    mesh = round_solid(1.0, 0.0, 1.0, 24);
  } else {
    mesh = icosphere(3);
    for (Vec3& v : mesh.vertices) v = v * 0.5 + Vec3{0, 0, 0.5};
  }
  return set_crown(ground, object, crown, std::move(mesh));
}

geom::RoundVolume crown_volume(const Heightfield& ground, const Object& object,
                               const Crown& crown) {
  // The unit body's foot and the ends of its axes, set as the crown is.
  Mesh axes;
  axes.vertices = {{0, 0, 0}, {0.5, 0, 0}, {0, 0.5, 0}, {0, 0, 1}};
  axes = set_crown(ground, object, crown, std::move(axes));
  const auto& v = axes.vertices;
  const geom::RoundKind kind = crown.shape == "cone"       ? geom::RoundKind::cone
                               : crown.shape == "cylinder" ? geom::RoundKind::cylinder
                                                           : geom::RoundKind::ellipsoid;
  return {kind, v[0], v[1] - v[0], v[2] - v[0], v[3] - v[0]};
}

}  // namespace hummock
