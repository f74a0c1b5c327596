#include "engine/houses/way_in.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/findings/finding.h"
#include "engine/model/climbed.h"
#include "engine/usable/hops.h"
#include "geometry/rays/ray_scene.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::houses {
namespace {

// Nothing within `deep` of the wall for a body `wide` across whose middle is `off` from the door's.
bool room_at(const Model& model, const barrier::Stretch& door, double off, double wide,
             double height) {
  constexpr double kFromWall = 0.01;  // m; numeric, a setting
  const Vec2 along = geom::unit(door.b - door.a);
  const Vec2 out = -left_of(along);
  const Vec2 middle = lerp(door.a, door.b, 0.5) + along * off;
  const int rays = 1 + static_cast<int>(std::ceil(wide / kApart));
  for (int k = 0; k <= rays; ++k) {
    const Vec2 p = middle + along * (wide * (1.0 * k / rays - 0.5)) + out * kFromWall;
    const Vec3 from = at_height(p, geom::height_at(model.ground, p) + height);
    if (model.body_scene->occluded({from, at_height(out * wide, 0.0), 0.0, 1.0})) return false;
  }
  return true;
}

bool room_before(const Model& model, const barrier::Stretch& door) {
  constexpr double kHeights = 0.1;  // m between the heights tried; numeric, a setting
  constexpr int kAsides = 20;       // places tried across the door, and one; numeric, a setting
  const Species& animal = model.site.species;
  const double wide = animal.body.value[1];
  const double aside = 0.5 * std::max(0.0, geom::distance(door.a, door.b) - wide);
  const double low = 0.5 * std::max(0.1, animal.body.value[2]);
  const double rise = std::max(0.0, animal.leap_height.value - low);
  for (int i = 0; i <= static_cast<int>(rise / kHeights); ++i) {
    for (int k = 0; k <= kAsides; ++k) {
      const double off = aside * (2.0 * k / kAsides - 1.0);
      if (room_at(model, door, off, wide, low + i * kHeights)) return true;
    }
  }
  return false;
}

// What the snow leaves of the door, m.
double free_height(const Model& model, const WallOpening& drawn) {
  return drawn.height - std::max(0.0, model.snow - drawn.sill);
}

std::string never_comes(const Model& model, const WallOpening& drawn,
                        const barrier::Stretch& door) {
  const Species& animal = model.site.species;
  const double leap = usable::leaper_of(animal).height;
  const char* who = leap < animal.leap_height.value ? "the young leap" : "the animal leaps";
  const double sill = std::max(0.0, drawn.sill - model.snow);
  if (sill > leap && !climbs(animal, door.surface))
    return fmt::format("its door's sill is {:.2f} m up, {} {:.2f} m", sill, who, leap);
  const auto& body = animal.body.value;
  if (drawn.aperture > 0.0 && drawn.aperture < std::max(body[1], body[2]))
    return fmt::format(
        "the grille before its door passes {:.0f} mm, its body is {:.2f} by {:.2f} m",
        drawn.aperture * 1e3, body[1], body[2]);
  const std::string from = model.site.leap_start
                               ? "its start at " + place_words(model, *model.site.leap_start)
                               : "the largest ground, where it starts without a [leap] start,";
  return fmt::format("from {} it does not come to its door and back, walking and leaping{}", from,
                     leap < animal.leap_height.value ? " as the young leap" : "");
}

}  // namespace

std::optional<std::string> shut_out(const Model& model, const WallOpening& drawn,
                                    const barrier::Stretch& door, bool comes) {
  const Species& animal = model.site.species;
  if (model.snow > 0.0 && free_height(model, drawn) < animal.body.value[2]) {
    return fmt::format(
        "{:.2f} m of snow leave {:.2f} m of its door free, the animal is {:.2f} m high", model.snow,
        std::max(0.0, free_height(model, drawn)), animal.body.value[2]);
  }
  if (drawn.aperture > 0.0 && drawn.aperture < animal.least_opening.value) {
    return fmt::format("the grille before its door passes {:.0f} mm, the head {:.0f} mm",
                       drawn.aperture * 1e3, animal.least_opening.value * 1e3);
  }
  if (model.body_scene != nullptr && !room_before(model, door)) {
    return fmt::format("something stands right before its door: a body {:.2f} m wide finds no room",
                       animal.body.value[1]);
  }
  if (!comes) return never_comes(model, drawn, door);
  return std::nullopt;
}

}  // namespace hummock::houses
