// A direction to the sun in the form shadows want it.
#pragma once

#include <cmath>

#include "engine/site/site.h"
#include "engine/sun/sun.h"
#include "geometry/vec.h"

namespace hummock::shade {

using geom::Vec2;
using geom::Vec3;

// Lines to the sun below this elevation are not followed: nothing of the beam is counted.
inline constexpr double kLowestSun = 0.02 * geom::kDegree;

// `run` is the horizontal way gone for each metre risen; a point's shadow coordinates
// (x − z·run.x, y − z·run.y) are those of every point on its line to the sun.
struct SunRay {
  Vec3 towards;      // unit
  Vec2 run;          // towards.xy / towards.z
  double slant = 1;  // metres along the line for each metre risen
  bool up = false;   // above kLowestSun and above the horizon profile
};

inline SunRay sun_ray(Vec3 towards, bool visible = true) {
  SunRay r;
  r.towards = towards;
  r.up = visible && towards.z > std::sin(kLowestSun);
  if (r.up) {
    r.run = {towards.x / towards.z, towards.y / towards.z};
    r.slant = 1.0 / towards.z;
  }
  return r;
}

// Elevation of the horizon profile at an azimuth (rad from true north), linear between its points;
// −π/2 without a profile.
double horizon_at(const std::vector<HorizonPoint>& profile, double azimuth);

// The ray to the sun's centre, hidden if the profile is higher.
SunRay sun_ray(const Place& place, const sun::Position& at);

// Rays spread evenly over the sun's disc (radius 0.2666° at 1 au); uniform brightness is assumed.
inline constexpr int kDiscRays = 19;
std::vector<SunRay> disc_rays(const Place& place, const sun::Position& at);

}  // namespace hummock::shade
