// A throw through the air, and what it costs an animal.
//
// A point thrown at speed v passes through the point at horizontal distance r and rise z when
// v² >= g (z + √(z² + r²)) (the least take-off speed to a point, from the parabola of safety:
// Torricelli 1644; any text on mechanics, e.g. Halliday, Resnick & Walker, projectile motion; from
// memory). As an effort, E = v²/2g: e₁(r, z) = ½ (z + √(z² + r²)).
// What the animal can do is the contract of the species file: a ledge of height H, a level gap of
// D. With s = 2H/D, every point under z = H − (s·r)²/(4H) is within its leap: e(r, z) = e₁(s·r, z).
// Downwards (z < 0) the easier of two readings holds where D < 2H: also the plain throw at the
// speed of its level gap, share e₁(r, z)/(D/2), so in units of H the effort s·e₁(r, z).
//
// One family joins two points: at share u of the way the body is w·u(1 − u) + z·u² above the first;
// E(w) = (x² + w²)/(4 (w − z)), x = s·r or r, w > z; least at w₀ = z + √(z² + x²).
//
// A body is a ball of the species' least opening. Its centre flies; four lines round it at 0.9 of
// its radius must be free too, but for the last 1.5 radii before an edge, which forelimbs gain
// before the body has cleared it.
#pragma once

#include "tests/witness/exported_yard.h"

namespace hummock::witness {

struct Animal {
  double leap_height = 1.0;            // m
  double leap_distance = 2.0;          // m
  double cling = 0.0;                  // share of its leap from a hold
  double stand_slope = 0.7;            // rad
  double least_opening = 0.06;         // m
  double wade_depth = 0.1;             // m
  std::vector<std::string> climbs;     // surfaces
  std::vector<std::string> scrambled;  // things climbed whatever they are made of
  // The body's premises, at the careful ends an animal file has when it says nothing. Each can be
  // taken away, to name what a way out rests on.
  double reach = 0.4;    // m, from a hold or footing to a free edge; a body's length
  double crouch = 0.06;  // m, clear height; the least opening
  double past_upright = 30.0 * geom::kDegree;  // rad, climbed so far beyond upright
  bool crests = true;  // leaps from ridges, rims and free edges of any slope
  bool swims = true;
  bool easier_drop = true;  // the second reading downwards
  bool crowns = true;       // branches bear what climbs the trunk

  double stretch() const { return 2.0 * leap_height / leap_distance; }
  double radius() const { return 0.5 * least_opening; }
};

double thrown_effort(double r, double z);                       // e₁
double least_effort(const Animal& animal, double r, double z);  // of the easier reading
double least_bulge(const Animal& animal, double r, double z);   // w₀ of that reading
double effort_of_bulge(const Animal& animal, double r, double z, double w);

// Is the flight of bulge w from centre a to centre b free? `edge`: b is the ball on an edge.
bool flies(const Rays& rays, const Animal& animal, Vec3 a, Vec3 b, double w, bool edge);
// The straight way of the same ball.
bool passes(const Rays& rays, const Animal& animal, Vec3 a, Vec3 b);

}  // namespace hummock::witness
