#include "engine/shade/cast/eight_faces.h"

#include <bit>
#include <cmath>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

constexpr float kOverTop = 1e-4F;  // m, as NearShadows is sure of heights

// Doubles from their store.
[[gnu::always_inline]] inline void load_doubles(const std::array<double, kWide>& from,
                                                Doubles& to) {
  std::memcpy(&to, from.data(), sizeof to);
}

// The least and the greatest of the corners' numbers.
[[gnu::always_inline]] inline void set_range(const std::array<Floats, 4>& of, const Flags& none,
                                             EightNumbers& least, EightNumbers& most) {
  Floats lo = of[0], hi = of[0];
  for (std::size_t k = 1; k < of.size(); ++k) {
    Lesser::of(lo, of[k], lo);
    Greater::of(hi, of[k], hi);
  }
  const Floats far = Floats{} + 1e30F;
  lo = none ? far : lo;
  hi = none ? -far : hi;
  store(lo, least);
  store(hi, most);
}

// Twice the area in plan: of the triangle of the first three corners, and of the rest.
[[gnu::always_inline]] inline void area_of(const std::array<FloatPoint, 4>& p, Doubles& area) {
  DoubleWay u, v, w;
  way(p[0], p[1], u);
  way(p[0], p[2], v);
  way(p[0], p[3], w);
  area = Doubles{} + (u.x * v.y - u.y * v.x);
  area += v.x * w.y - v.y * w.x;
}

[[gnu::always_inline]] inline void set_planes(const FaceCorners& c, const FacesFall& fall,
                                              double own, EightFaces& to) {
  Doubles nx, ny, nz, px, py, pz;
  load_doubles(c.normal[0], nx);
  load_doubles(c.normal[1], ny);
  load_doubles(c.normal[2], nz);
  load_doubles(c.through[0], px);
  load_doubles(c.through[1], py);
  load_doubles(c.through[2], pz);
  const Doubles rises = nx * fall.run.x + ny * fall.run.y + nz;
  const Doubles steep = rises < 0.0 ? -rises : rises;
  const Doubles on = nx * (px - fall.ref.x) + ny * (py - fall.ref.y) + nz * (pz - fall.ref.z);
  const Doubles z0 = on / rises - own / steep;
  store(__builtin_convertvector(z0, Floats), to.z0);
  store(__builtin_convertvector(-nx / rises, Floats), to.zx);
  store(__builtin_convertvector(-ny / rises, Floats), to.zy);
}

HUMMOCK_WIDE
void set_up_faces(const FaceCorners& c, const FacesFall& fall, double own, EightFaces& to) {
  std::array<FloatPoint, 4> p;
  for (std::size_t k = 0; k < p.size(); ++k) load_point(c.corner[k], p[k]);
  Doubles area;
  area_of(p, area);
  Flags none = __builtin_convertvector(Longs(area == 0.0), Flags);
  const Flags left = __builtin_convertvector(Longs(area > 0.0), Flags);
  for (std::size_t k = c.count; k < kWide; ++k) none[k] = -1;
  set_range({p[0].x, p[1].x, p[2].x, p[3].x}, none, to.box[0], to.box[1]);
  set_range({p[0].y, p[1].y, p[2].y, p[3].y}, none, to.box[2], to.box[3]);
  std::array<Floats, 4> across;
  for (std::size_t k = 0; k < p.size(); ++k)
    across[k] =
        __builtin_convertvector(fall.across.x * __builtin_convertvector(p[k].x, Doubles) +
                                    fall.across.y * __builtin_convertvector(p[k].y, Doubles),
                                Floats);
  set_range(across, none, to.box[4], to.box[5]);
  set_range({p[0].z, p[1].z, p[2].z, p[3].z}, none, to.z_low, to.box[6]);
  set_sides(p[0], p[1], left, to.side[0]);
  set_sides(p[1], p[2], left, to.side[1]);
  // The last side of a triangle leads from its third corner to its first, which is its fourth.
  set_sides(p[2], p[3], left, to.side[2]);
  set_sides(p[3], p[0], left, to.side[3]);
  set_planes(c, fall, own, to);
}

struct Meeting {
  std::array<Floats, 7> of;
};
[[gnu::always_inline]] inline void load_boxes(const EightBoxes& from, Meeting& to) {
  for (std::size_t m = 0; m < from.size(); ++m) load(from[m].data(), to.of[m]);
}

HUMMOCK_WIDE
std::uint32_t meeting_of(const EightBoxes& boxes, const ShadedBox& nodes) {
  Meeting b;
  load_boxes(boxes, b);
  const ShadowBox& n = nodes.box;
  const Flags meet = (b.of[0] <= n.x1) & (b.of[1] >= n.x0) & (b.of[2] <= n.y1) & (b.of[3] >= n.y0) &
                     (b.of[4] <= n.across1) & (b.of[5] >= n.across0) & (b.of[6] >= nodes.lowest);
  return bits_of(meet);
}

// What the nodes' box tells of each, as Touch: a bit for those that touch it, for each of their
// sides that it does not certainly lie inside of, and for planes not certainly above it.
struct Told {
  std::uint32_t meet = 0, plane = 0;
  std::array<std::uint32_t, 4> side{};
};
[[gnu::always_inline]] inline void tell(const EightFaces& t, const ShadowNodes& n, Told& told) {
  Meeting b;
  load_boxes(t.box, b);
  const Flags meet = (b.of[0] <= n.x1) & (b.of[1] >= n.x0) & (b.of[2] <= n.y1) & (b.of[3] >= n.y0);
  Flags outside = {};
  for (std::size_t s = 0; s < t.side.size(); ++s) {
    Flags beyond = {}, part = {};
    beside_eight(n, t.side[s], beyond, part);
    const std::uint32_t has = s < 3 ? 0xFFU : t.four;
    told.side[s] = bits_of(part) & has;
    told.meet |= bits_of(beyond) & has;
  }
  told.meet = bits_of(meet) & ~(told.meet | bits_of(outside));
  Floats z0, zx, zy, z_low, x, y;
  load(t.z0.data(), z0);
  load(t.zx.data(), zx);
  load(t.zy.data(), zy);
  load(t.z_low.data(), z_low);
  Lesser::of(zx * n.x0, zx * n.x1, x);
  Lesser::of(zy * n.y0, zy * n.y1, y);
  Floats lowest = z0 + x + y;
  Greater::of(lowest, z_low, lowest);
  told.plane = bits_of(lowest <= n.z_top + kOverTop);
}

// The kth over a run of nodes; true where none of them has light after it.
[[gnu::always_inline]] inline bool take_run(const EightFaces& t, std::size_t k, const Told& told,
                                            const ShadowNodes& n, std::size_t first, float* out) {
  Floats qx, qy;
  load(&n.qx[first], qx);
  load(&n.qy[first], qy);
  Flags outside = {};
  for (std::size_t s = 0; s < t.side.size(); ++s) {
    const EightSides& e = t.side[s];
    if ((told.side[s] >> k & 1U) != 0)
      add_outside({e.ax[k], e.ay[k], e.dx[k], e.dy[k], e.negative[k]}, qx, qy, outside);
  }
  if ((told.plane >> k & 1U) != 0) {
    Floats qz;
    load(&n.z[first], qz);
    const Floats high = Floats{} + t.box[6][k], low = Floats{} + t.z_low[k];
    Floats top = t.z0[k] + t.zx[k] * qx + t.zy[k] * qy;
    top = top < high ? top : high;
    top = top < low ? low : top;
    outside |= ~(top - qz > 0.0F);
  }
  Floats o;
  load(out + first, o);
  o *= outside == 0 ? Floats{} + t.factor[k] : Floats{} + 1.0F;
  std::memcpy(out + first, &o, sizeof o);
  return bits_of(o > 0.0F) == 0;
}

struct FaceBox {
  float x0, x1, y0, y1;
};

HUMMOCK_WIDE
bool take(const EightFaces& t, std::uint32_t which, const ShadowNodes& n, std::uint32_t& lit,
          TileBeam& beam, bool& scanned) {
  Told told;
  tell(t, n, told);
  const std::uint32_t part = told.side[0] | told.side[1] | told.side[2] | told.side[3] | told.plane;
  for (std::uint32_t left = told.meet & which; left != 0; left &= left - 1) {
    const auto k = static_cast<std::size_t>(std::countr_zero(left));
    const FaceBox box{t.box[0][k], t.box[1][k], t.box[2][k], t.box[3][k]};
    std::uint32_t runs = runs_meeting(n, box) & lit;
    if (runs == 0) continue;
    if ((part >> k & 1U) == 0) {
      multiply(beam, t.factor[k]);
      if (t.factor[k] <= 0.0F) return make_dark(beam), false;
      continue;
    }
    spread(beam);
    scanned = true;
    for (; runs != 0; runs &= runs - 1) {
      const int run = std::countr_zero(runs);
      if (take_run(t, k, told, n, static_cast<std::size_t>(run) * kWide, beam.each.data()))
        lit &= ~(std::uint32_t{1} << run);
    }
  }
  return true;
}

}  // namespace

void set_up(const FaceCorners& corners, const FacesFall& fall, double own, EightFaces& faces) {
  faces.four = corners.four;
  set_up_faces(corners, fall, own, faces);
}

std::uint32_t faces_meeting(const EightFaces& faces, const ShadedBox& nodes) {
  return meeting_of(faces.box, nodes);
}

bool take_faces(const EightFaces& faces, std::uint32_t which, const ShadowNodes& nodes,
                std::uint32_t& lit, TileBeam& beam, bool& scanned) {
  return take(faces, which, nodes, lit, beam, scanned);
}

}  // namespace hummock::shade
