#include "engine/ground/guests.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/site/viewing_line.h"

namespace hummock::ground {
namespace {

// Guests stand on the line from one to the other.
struct Stand {
  std::string name;
  Vec2 a, b;
};

Stand stand_of(const Site& site, const Viewing& viewing) {
  const ViewingLine line = viewing_line(site.boundary, viewing);
  const Vec2 back = line.inwards * -line.off;
  return {viewing.name, line.a + back, line.b + back};
}

std::vector<Stand> stands(const Site& site) {
  std::vector<Stand> out;
  for (const Viewing& viewing : site.viewings) out.push_back(stand_of(site, viewing));
  return out;
}

bool has_survey(const Site& site) {
  return !site.ground.raster.empty() || !site.ground.points.empty();
}

bool guessed_at(const Modelled& modelled, Vec2 p) {
  if (modelled.guessed.empty()) return false;
  const geom::Grid& g = modelled.ground.grid;
  const auto nearest = [&](double at, double from, int count) {
    return std::clamp(static_cast<int>(std::lround((at - from) / g.cell)), 0, count - 1);
  };
  return modelled.guessed[g.index(nearest(p.x, g.x0, g.nx), nearest(p.y, g.y0, g.ny))] != 0;
}

bool is_guessed(const Site& site, const Modelled& modelled, const geom::Heightfield* beyond,
                Vec2 p) {
  if (geom::covers(modelled.ground, p)) return guessed_at(modelled, p);
  return has_survey(site) && (beyond == nullptr || !geom::covers(*beyond, p));
}

}  // namespace

std::optional<geom::Heightfield> level_out_to_guests(const Site& site, Vec2 origin) {
  if (has_survey(site)) return std::nullopt;
  const geom::Box2 modelled =
      modelled_area(site.boundary.outline, site.ground.cell, site.ground.margin);
  geom::Box2 area = modelled;
  for (const Stand& s : stands(site)) {
    area.add(s.a);
    area.add(s.b);
  }
  if (area.lo == modelled.lo && area.hi == modelled.hi) return std::nullopt;
  return ground_over(site, origin, area).ground;
}

std::optional<Unseen> guessed_under_guests(const Site& site, const Modelled& modelled,
                                           const geom::Heightfield* beyond) {
  constexpr int kPlaces = 16;  // along each line
  std::string names;
  for (const Stand& s : stands(site)) {
    bool guessed = false;
    for (int k = 0; k <= kPlaces; ++k)
      guessed |= is_guessed(site, modelled, beyond, geom::lerp(s.a, s.b, 1.0 * k / kPlaces));
    if (guessed) names += (names.empty() ? "'" : ", '") + s.name + "'";
  }
  if (names.empty()) return std::nullopt;
  return Unseen{kGuestGround,
                "the ground under the guests of " + names +
                    ", of which the survey has no height, is as high as its nearest one",
                "the survey's nearest height", "a survey that reaches them"};
}

}  // namespace hummock::ground
