// Where one looks from, and how dragging, the wheel and the view buttons move it.
//
// Pixels count from the top left of the view, y down. `heading` is a compass-like angle of the
// looking direction, clockwise from +y; `tilt` is how far below the horizon it points. Orbiting,
// panning and zooming keep the point under the pointer under the pointer (exactly for pan and zoom;
// for orbit the pivot stays where it is on the screen). Pure arithmetic: no window, no OpenGL.
#pragma once

#include "geometry/vec.h"
#include "viewer/draw/matrix.h"

namespace hummock::viewer {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

enum class Stance { orbit, flat, walk };  // flat: parallel projection (plan and elevations)

struct Camera {
  Stance stance = Stance::orbit;
  Vec3 target;             // orbit, flat: the point in the middle of the view
  double distance = 20.0;  // m from the eye to the target, > 0
  double heading = 0.0;    // rad clockwise from +y
  double tilt = 0.6;       // rad below the horizon, −π/2..π/2
  double fov = 0.70;       // rad, vertical
  double reach = 100.0;    // m, radius of all there is to see: sets the far plane
};

struct View {  // the size of the picture, pixels
  int width = 1;
  int height = 1;
  double aspect() const { return static_cast<double>(width) / static_cast<double>(height); }
};

Vec3 forward(const Camera& camera);
Vec3 right(const Camera& camera);
Vec3 eye(const Camera& camera);
Matrix4 view_projection(const Camera& camera, View view);

struct Sightline {
  Vec3 origin;
  Vec3 direction;  // unit
};
Sightline through(const Camera& camera, View view, Vec2 pixel);

struct OnScreen {
  Vec2 pixel;
  bool ahead = false;  // in front of the eye
};
OnScreen project(const Camera& camera, View view, Vec3 p);

// Metres that one pixel covers at p.
double pixel_size(const Camera& camera, View view, Vec3 p);

// Turns round `pivot` by a drag of `pixels`; the pivot keeps its place on the screen. Walking:
// turns the head.
void orbit(Camera& camera, View view, Vec3 pivot, Vec2 pixels);
// Moves so that the point `grabbed` follows the pointer from `from` to `to`.
void pan(Camera& camera, View view, Vec3 grabbed, Vec2 from, Vec2 to);
// Draws nearer (factor < 1) or away, keeping `point` under the pointer.
void zoom(Camera& camera, Vec3 point, double factor);
// Fits the box into the view, keeping the direction.
void frame(Camera& camera, View view, const Box3& box);

void look_plan(Camera& camera, View view, const Box3& box);
// `towards`: heading of the look, so the elevation seen from the south looks along 0.
void look_elevation(Camera& camera, View view, const Box3& box, double towards);
// Stands the eye at `where`, looking along `heading`.
void stand(Camera& camera, Vec3 where, double heading);
// Walking: ahead and aside in metres over the ground plan; the caller sets the height with
// `stand_at_height`.
void step(Camera& camera, double ahead, double aside);
void set_eye_height(Camera& camera, double z);

// Between two cameras, 0..1, for a flight; at 1 exactly `to`.
Camera between(const Camera& from, const Camera& to, double t);

}  // namespace hummock::viewer
