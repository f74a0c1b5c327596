// Openings: the largest ball that passes anywhere through the barrier. Model: DESIGN §4.4.
//
// mesh aperture  the clear opening of every mesh section and of a mesh roof: a square mesh passes a
//                ball of that diameter.
// under panel    the height between the real ground and the sheet's own lower edge, along every
//                panel: both are broken lines, so the greatest height is exact. What a skirt or a
//                footing closes (bared by scour, or buried in a wedge) is not open; a raked panel
//                is taken to be set into its footing. A rigid raked panel without one runs straight
//                from post to post (engine/model/fence_foot.h): a dip below it is open. A drain
//                hides nothing but its own opening. `ball_m` is that height: under a stepped
//                panel on slope g and length L it is g·L. A rigid ball that must also miss the post
//                is smaller, `rigid_ball_m`: the largest circle in the gap. The check takes the
//                larger, since the thin end of the gap is earth and gives way.
//                The walls of a vestibule are looked at as panels are; a house's walls are built
//                down into the ground and its door's lower edge is told by its sill.
// under gate     the same under each leaf, the vestibule's outer one too; only a footing closes it.
// beside gate    side_gap on either side, and the half joint gap by which the next panel ends short
//                of the post. Posts are not counted.
// joint          the gap left between panels; where two sections meet, half of each; any gap in
// plan
//                between neighbouring panels. Posts behind a joint are not counted. A step between
//                sections of unequal height lies above the lower one's top and is leap's to judge.
// roof edge      from the fence's top up to the roof straight above it; and where a roof's own
//                outline leaves part of the yard open, the largest circle in that part together
//                with the greatest height of the roof's free edge above the fence beside it (the
//                lower one, where two are as near: at a corner, at a step). A
//                circle wider than kOpenSky is taken as meant: listed with a note, but the leap
//                check judges an open sky, not this.
// drain, vent    the smaller of width, height and the grille's aperture. A vent whose outer side is
//                in the yard leads nowhere: listed, never passes; nor does one that the fence
//                stands before. What of it opens above a roof that closes the yard leads out
//                (engine/barrier/house_ways.h). A drain, or what of it, that leads into a house
//                standing against the fence is no way out: what leads on out of that house is told
//                by its own vents, and by the entry check. How the animal would come up to a vent
//                from within is not asked: what stands inside is not drawn.
// joined gap     where gaps run into each other (joint and foot, a leaf's lower corner, two drains,
//                joint and roof edge) the largest circle in the fence unrolled into a plane.
// pinch          no way out, but a place to be caught: two solids (object, den, house, fence,
//                leaf) whose nearest points above ground are apart between half the body's width
//                and its whole (common practice, no source). Exact distance of the triangle meshes.
//                Where they come nearer or touch, a ball of such a width that touches a face of
//                either, these within 30 degrees of parallel (closing_gaps.h): a V that closes, or
//                a gap beside the place where they touch. A wider V is not listed, nor one between
//                edges or round stones.
// Guests' own safety (fingers, heads) is not judged here.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::openings {

inline constexpr double kOpenSky = 1.0;       // m; common practice, no source
inline constexpr double kLeastListed = 1e-3;  // m, least listed; common practice, no source

struct Opening {
  std::string what;  // mesh aperture | under panel | under gate | beside gate | joint | roof edge |
                     // drain | vent | joined gap | pinch
  std::string thing;  // name in the site file
  Vec3 at;
  double ball_m = 0;    // diameter of the largest ball that passes
  double length_m = 0;  // how long the gap is, along the fence; 0 = a hole. Under a panel: as far
                        // as it is higher than least_opening, or than 1 mm when it nowhere is
  bool passes = false;  // ball >= least_opening; a pinch always
  double rigid_ball_m = 0;  // see above; equal to ball_m for a hole
  std::string note;         // why it does not count, if so
  bool leads_out = true;    // false: a pinch
};
struct Result {
  double largest_m = 0;       // over all that lead out: no pinch, no canopy, no blind vent
  std::vector<Opening> list;  // largest first
  bool met = false;           // nothing but pinches passes
  int entrapment_gaps = 0;
};
Result analyse(const Model& model);

}  // namespace hummock::openings
