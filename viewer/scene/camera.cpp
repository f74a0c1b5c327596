#include "viewer/scene/camera.h"

#include <algorithm>
#include <cmath>

namespace hummock::viewer {
namespace {

using geom::kPi;

// One step short of straight down, so that "up" on the screen stays defined.
constexpr double kSteepest = kPi / 2.0 - 1e-6;
constexpr double kTurnPerPixel = 0.006;  // rad

Vec3 up(const Camera& c) {
  return geom::cross(right(c), forward(c));
}

Vec3 corner_of(const Box3& box, int k) {
  return {k & 1 ? box.hi.x : box.lo.x, k & 2 ? box.hi.y : box.lo.y, k & 4 ? box.hi.z : box.lo.z};
}

double half_height(const Camera& c) {
  return c.distance * std::tan(c.fov / 2.0);
}

// Centres the box as it is seen and scales the distance to what it fills.
void tighten(Camera& c, View view, const Box3& box) {
  double lo_x = 1e300;
  double hi_x = -1e300;
  double lo_y = 1e300;
  double hi_y = -1e300;
  for (int k = 0; k < 8; ++k) {
    const OnScreen seen = project(c, view, corner_of(box, k));
    if (!seen.ahead) return;
    lo_x = std::min(lo_x, seen.pixel.x);
    hi_x = std::max(hi_x, seen.pixel.x);
    lo_y = std::min(lo_y, seen.pixel.y);
    hi_y = std::max(hi_y, seen.pixel.y);
  }
  const Vec2 middle{(view.width - 1) / 2.0, (view.height - 1) / 2.0};
  pan(c, view, c.target, {(lo_x + hi_x) / 2.0, (lo_y + hi_y) / 2.0}, middle);
  const double filled = std::max((hi_x - lo_x) / view.width, (hi_y - lo_y) / view.height);
  if (filled > 0.94) c.distance *= filled / 0.94;
  if (filled < 0.90) c.distance *= 0.5 + 0.5 * filled / 0.90;
}

}  // namespace

Vec3 forward(const Camera& c) {
  return {std::sin(c.heading) * std::cos(c.tilt), std::cos(c.heading) * std::cos(c.tilt),
          -std::sin(c.tilt)};
}

Vec3 right(const Camera& c) {
  return {std::cos(c.heading), -std::sin(c.heading), 0.0};
}

Vec3 eye(const Camera& c) {
  return c.target - forward(c) * c.distance;
}

Matrix4 view_projection(const Camera& c, View view) {
  const Matrix4 looking = look(eye(c), forward(c), up(c));
  const double depth = c.distance + 2.0 * c.reach;
  if (c.stance == Stance::flat)
    return orthographic(half_height(c) * view.aspect(), half_height(c), -2.0 * c.reach, depth) *
           looking;
  const double near_plane = c.stance == Stance::walk ? 0.03 : std::max(0.03, c.distance * 0.02);
  return perspective(c.fov, view.aspect(), near_plane, std::max(depth, 10.0 * near_plane)) *
         looking;
}

Sightline through(const Camera& c, View view, Vec2 pixel) {
  const double x = 2.0 * (pixel.x + 0.5) / view.width - 1.0;
  const double y = 1.0 - 2.0 * (pixel.y + 0.5) / view.height;
  const double h = half_height(c);
  const Vec3 aside = right(c) * (x * h * view.aspect()) + up(c) * (y * h);
  if (c.stance == Stance::flat)
    return {c.target + aside - forward(c) * (c.distance + 2.0 * c.reach), forward(c)};
  return {eye(c), geom::unit(forward(c) * c.distance + aside)};
}

OnScreen project(const Camera& c, View view, Vec3 p) {
  const Clip q = transform(view_projection(c, view), p);
  if (q.w <= 1e-9) return {};
  return {{(q.x / q.w + 1.0) / 2.0 * view.width - 0.5, (1.0 - q.y / q.w) / 2.0 * view.height - 0.5},
          true};
}

double pixel_size(const Camera& c, View view, Vec3 p) {
  const double depth =
      c.stance == Stance::flat ? c.distance : std::max(1e-3, geom::dot(p - eye(c), forward(c)));
  return 2.0 * depth * std::tan(c.fov / 2.0) / view.height;
}

void orbit(Camera& c, View view, Vec3 pivot, Vec2 pixels) {
  const Vec3 before[3] = {right(c), up(c), forward(c)};
  const Vec3 arm = pivot - eye(c);
  const double along[3] = {geom::dot(arm, before[0]), geom::dot(arm, before[1]),
                           geom::dot(arm, before[2])};
  const double sense = c.stance == Stance::walk ? -1.0 : 1.0;
  c.heading += sense * kTurnPerPixel * pixels.x;
  c.heading = std::remainder(c.heading, 2.0 * kPi);
  c.tilt = std::clamp(c.tilt + sense * kTurnPerPixel * pixels.y, -kSteepest, kSteepest);
  const bool head_only = c.stance == Stance::walk;
  if (c.stance == Stance::flat) c.stance = Stance::orbit;
  // The pivot keeps its place in the eye's own axes, so it keeps its place on the screen.
  const Vec3 eye_now =
      head_only ? pivot - arm
                : pivot - (right(c) * along[0] + up(c) * along[1] + forward(c) * along[2]);
  c.target = eye_now + forward(c) * c.distance;
  (void)view;
}

void pan(Camera& c, View view, Vec3 grabbed, Vec2 from, Vec2 to) {
  const double size = pixel_size(c, view, grabbed);
  c.target = c.target - right(c) * ((to.x - from.x) * size) + up(c) * ((to.y - from.y) * size);
}

void zoom(Camera& c, Vec3 point, double factor) {
  if (c.stance == Stance::walk) {
    const double wider = 2.0 * std::atan(std::tan(c.fov / 2.0) * factor);
    c.fov = std::clamp(wider, 0.15, 1.4);
    return;
  }
  const double wanted = std::clamp(c.distance * factor, 0.2, 20.0 * c.reach);
  const double used = wanted / c.distance;
  c.target = point + (c.target - point) * used;
  c.distance = wanted;
}

void frame(Camera& c, View view, const Box3& box) {
  if (box.empty()) return;
  const Vec3 middle = box.centre();
  // The furthest each corner of the box lies across, up and towards us, in the eye's axes.
  double wanted = 0.5;
  const double tan_y = std::tan(c.fov / 2.0);
  const double tan_x = tan_y * view.aspect();
  for (int k = 0; k < 8; ++k) {
    const Vec3 corner = corner_of(box, k);
    const Vec3 arm = corner - middle;
    const double nearer = c.stance == Stance::flat ? 0.0 : -geom::dot(arm, forward(c));
    const double across = std::abs(geom::dot(arm, right(c))) / tan_x;
    const double over = std::abs(geom::dot(arm, up(c))) / tan_y;
    wanted = std::max(wanted, std::max(across, over) + nearer);
  }
  c.target = middle;
  c.distance = wanted * 1.04;
  // Seen in perspective the box does not lie about its middle: slide it there, then come nearer.
  for (int turn = 0; turn < 4; ++turn) tighten(c, view, box);
}

void look_plan(Camera& c, View view, const Box3& box) {
  c.stance = Stance::flat;
  c.fov = Camera{}.fov;
  c.heading = 0.0;
  c.tilt = kSteepest;
  frame(c, view, box);
}

void look_elevation(Camera& c, View view, const Box3& box, double towards) {
  c.stance = Stance::flat;
  c.fov = Camera{}.fov;
  c.heading = towards;
  c.tilt = 0.0;
  frame(c, view, box);
}

void stand(Camera& c, Vec3 where, double heading) {
  c.stance = Stance::walk;
  c.fov = 1.0;
  c.heading = heading;
  c.tilt = 0.05;
  c.distance = 1.0;
  c.target = where + forward(c);
}

void step(Camera& c, double ahead, double aside) {
  const Vec3 along{std::sin(c.heading), std::cos(c.heading), 0.0};
  c.target = c.target + along * ahead + right(c) * aside;
}

void set_eye_height(Camera& c, double z) {
  c.target.z += z - eye(c).z;
}

Camera between(const Camera& from, const Camera& to, double t) {
  if (t >= 1.0) return to;
  const double s = t * t * (3.0 - 2.0 * t);
  Camera c = to;
  if (from.stance == Stance::walk && to.stance != Stance::walk) c.stance = to.stance;
  c.target = geom::lerp(from.target, to.target, s);
  c.distance = from.distance * std::pow(to.distance / from.distance, s);
  c.heading = from.heading + std::remainder(to.heading - from.heading, 2.0 * kPi) * s;
  c.tilt = from.tilt + (to.tilt - from.tilt) * s;
  c.fov = from.fov + (to.fov - from.fov) * s;
  return c;
}

}  // namespace hummock::viewer
