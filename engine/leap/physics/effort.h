// What one leap costs: the effort of a jump, its inverse, and its least value between two boxes.
//
// Model. The animal is a point thrown with a speed it can choose up to a limit, in any direction,
// without drag. A point thrown at speed v from p passes through the point at horizontal distance x
// and rise z when
//     z = x·t − x²(1 + t²)/(4E),   E = v²/2g,  t = tan(launch angle).                          (1)
// The points reached with E are those under the parabola of safety z = E − x²/(4E) (Torricelli
// 1644; J. Bernoulli 1692), so the least E that reaches (x, z) solves 4E² − 4Ez − x² = 0:
//     e = ½ (z + √(z² + x²)),   v² = 2 g e = g (z + √(z² + x²)).                               (2)
// (2) is the classical least take-off speed to reach a point; the figures it is tested against
// are in tests/leap/effort_test.cpp.
//
// Stretch. A species' two published figures, the ledge it gains from standing (leap height H) and
// the level gap it crosses (leap distance D), do not lie on one parabola of safety unless D = 2H:
// trunk and limbs reach. Horizontal distance is scaled, x = s·r with s = 2H/D, so that the
// envelope z = H − (s·r)²/(4H) passes through both (0, H) and (D, 0). Then
//     e(r, z) = ½ (z + √(z² + (s·r)²)),                                                        (3)
// and the place at (r, z) is within reach exactly when e(r, z) ≤ H.
//
// Downwards. For an animal that leaps shorter than twice its height (D < 2H, s > 1) the scaling
// also shortens drops, which a plain throw at the speed of its level gap does not. Two readings of
// its figures then compete for z < 0, the stretched one, e(r, z)/H, and the plain throw,
// e₁(r, z)/(D/2) with e₁ of s = 1; the easier is taken:
//     share = min(e(r, z)/H, e₁(r, z)/(D/2)),  in metres of leap height  min(e(r, z), s·e₁(r, z)).
// With f(X, Z) = ½(Z + √(Z² + X²)) these are f(s·r, z) and f(s·r, s·z); f never falls with Z, so
// for s > 1 and z < 0 the second is never the greater, and the two meet at z = 0. Hence with
//     z' = s·z for z < 0 and s > 1, else z:     e(r, z) = f(s·r, z').                          (3')
//
// Inverse envelope. With effort E the highest point over distance r is E − (s·r)²/(4E), divided by
// s where that is negative and s > 1 (3'); the farthest at rise z ≤ E is r = (2/s)·√(E(E − z')).
//
// Slopes. ∂e/∂z lies in [0, max(1, s/2)] and ∂e/∂r = ½ s²r/√(z'²+x²) in [0, s/2]: e never
// falls when the target goes farther or higher. Over two axis-aligned boxes the least distance and
// the least rise are reached together (they constrain different coordinates), so
//     min e over the boxes = e(least horizontal distance, least rise), exactly.                (4)
//
// Drag is left out: it would only cost the animal effort, so the figures stay on the careful side.
//
// Figures. A leap height must be a ledge, a bar or a wall gained. The rise of the centre of mass is
// none of them (the feet are drawn up under it by an amount that differs from animal to animal) and
// is refused rather than taken for a ledge.
#pragma once

#include "engine/species/species.h"
#include "geometry/vec.h"

namespace hummock::leap {

// What the search needs of a species. All finite; height and stretch > 0.
struct Ability {
  double height = 0.0;   // m, leap height H
  double stretch = 1.0;  // s = 2H/D
  double grip = 0.0;     // m, taken off the rise to an edge it can hook
  double cling = 0.0;    // 0..1, share of its leap from a climbed upright face
  double reach = 0.0;    // m, to an edge without leaping
  double water = 0.0;    // 0..1, share of its leap it has when afloat
};

// Throws InputError at the species' own line for a leap height or distance that is not a positive
// finite number, a rise of the centre of mass, a negative grip, or a cling share outside 0..1.
Ability ability_of(const Species& species);

// (3'). r >= 0 and z in m, s > 0. Exact to rounding also for deep drops, where the plain form loses
// digits. e(0, z <= 0) = 0: stepping off costs nothing.
double effort(double r, double z, double s);

// Height of the envelope of effort E > 0 over distance r, m above the take-off.
double envelope_height(double r, double E, double s);

// Farthest distance with effort E at rise z, m; negative when z > E (out of reach).
double envelope_distance(double z, double E, double s);

// Horizontal distance between two boxes, m: 0 when their plans overlap.
double plan_distance(const geom::Box3& a, const geom::Box3& b);

// (4): the exact least effort from any point of `from` to any point of `to`.
double effort_between(const geom::Box3& from, const geom::Box3& to, double s);

// Shortest distance from the point (r, z) seen from a take-off to the envelope of effort E, m;
// 0 when the point is on or under it. Never falls when r >= 0 or z grows.
double clearance_of_envelope(double r, double z, double E, double s);

}  // namespace hummock::leap
