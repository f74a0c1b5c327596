#include "engine/shade/beam/ground_sweep.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#if defined(__SSE__) && defined(__x86_64__)
#include <emmintrin.h>
#endif

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/ground_tiles.h"

namespace hummock::shade {
namespace {

constexpr int kPad = 16;           // further nodes beside each row, as high as its end
constexpr float kNothing = -1e5F;  // lower bound where there is no ground, m
constexpr float kSure = 0.0001F;   // m, of what is computed exactly

constexpr int kLanes = static_cast<int>(kWide);
using Bytes [[gnu::vector_size(8)]] = std::uint8_t;
static_assert(sizeof(Bytes) == kWide && sizeof(GroundShade) == 1 &&
              static_cast<int>(GroundShade::lit) == 0);

// Of numbers from 0 to 127.
[[gnu::always_inline]] inline void as_bytes(const Flags& of, Bytes& to) {
#if defined(__SSE__) && defined(__x86_64__)
  const auto low = __builtin_shufflevector(of, of, 0, 1, 2, 3);
  const auto high = __builtin_shufflevector(of, of, 4, 5, 6, 7);
  __m128i a, b;
  std::memcpy(&a, &low, sizeof a);
  std::memcpy(&b, &high, sizeof b);
  a = _mm_packs_epi32(a, b);
  a = _mm_packus_epi16(a, a);
  std::memcpy(&to, &a, sizeof to);
#else
  to = __builtin_convertvector(of, Bytes);
#endif
}

[[gnu::always_inline]] inline void raise(Floats& a, const Floats& b) {
  a = a < b ? b : a;
}

// A place between two rows where a line crosses a column or a diagonal: the height there is
// (1 − u) · near[at + near_step] + u · far[at + far_step], u the share of the way from the row on
// the sun's side.
struct Crossing {
  int near_step = 0, far_step = 0;
  float u = 0;
};

// Those of a line that starts `part` (0..1) past a node on the row towards the sun and shifts by
// `shift` nodes on the way to the next; `falling`: the next row has the lower number.
std::vector<Crossing> crossings(double part, double shift, bool falling) {
  std::vector<Crossing> list;
  constexpr double kTiny = 1e-9;
  for (int c = -1; c <= 1; ++c) {
    const double column = shift != 0.0 ? (c - part) / shift : -1.0;
    if (column > kTiny && column < 1.0 - kTiny) {
      list.push_back({c, c, static_cast<float>(column)});
    }
    // Diagonals run from (c + 1, low) to (c, high).
    const double down = falling ? 1.0 - shift : 1.0 + shift;
    if (std::abs(down) < kTiny) continue;
    const double u = (falling ? part - c : 1.0 + c - part) / down;
    const double x = part + shift * u - c;
    if (u <= kTiny || u >= 1.0 - kTiny || x < -kTiny || x > 1.0 + kTiny) continue;
    list.push_back(falling ? Crossing{c, c + 1, static_cast<float>(u)}
                           : Crossing{c + 1, c, static_cast<float>(u)});
  }
  return list;
}

// One step from a row to the next, away from the sun.
struct RowStep {
  int end_step = 0;  // where a line of the step ends on `far`: `end_part` past node k + end_step
  float end_part = 0;
  const float* near = nullptr;  // heights of the row towards the sun
  const float* far = nullptr;   // of the row to be judged
  float drop = 0;               // fall of the sun's line from row to row
};

// Crossings over the nodes from one on, ready for all of a row.
struct Crossed {
  static constexpr std::size_t kMost = 6;  // three columns, three diagonals
  std::size_t count = 0;
  std::array<const float*, kMost> near, far;
  alignas(32) std::array<Floats, kMost> part, fall;  // u, and how far the line falls on the way
};
[[gnu::always_inline]] inline void set_crossed(const RowStep& s, const Crossing* cross,
                                               std::size_t crosses, int from, Crossed& to) {
  to.count = crosses;
  for (std::size_t c = 0; c < crosses; ++c) {
    to.near[c] = s.near + from + cross[c].near_step;
    to.far[c] = s.far + from + cross[c].far_step;
    to.part[c] = Floats{} + cross[c].u;
    to.fall[c] = Floats{} + s.drop * (1.0F - cross[c].u);
  }
}

// Bulge of the ground between two lines near column n, over the step: a quarter of the kinks (slope
// to the left less slope to the right) at the column and at the diagonal beside it.
HUMMOCK_WIDE
void bulges(const float* low, const float* high, int from, int to, float* bulge) {
  for (int n = from; n < to; n += kLanes) {
    Floats l0, l1, l2, h0, h1, h2;
    load(low + n - 1, l0);
    load(low + n, l1);
    load(low + n + 1, l2);
    load(high + n - 1, h0);
    load(high + n, h1);
    load(high + n + 1, h2);
    Floats column = (h1 - h0) - (l2 - l1);
    Floats left = (l1 - l0) - (h1 - h0);
    const Floats right = (l2 - l1) - (h2 - h1);
    raise(left, right);
    raise(left, Floats{});
    raise(column, Floats{});
    const Floats sum = 0.25F * (column + left);
    std::memcpy(bulge + n, &sum, sizeof sum);
  }
}

// Carries both bounds of the shadow's height over one step (index = node to the left on `near`,
// `part` past it; the lower bound is that of the strip to the next line).
struct Bounds {
  float* upper;
  float* lower;
};
HUMMOCK_WIDE
void carry(const RowStep& s, float part, const Crossing* cross, std::size_t crosses,
           const float* bulge, int from, int to, int inside, const Bounds& b) {
  Crossed at;
  set_crossed(s, cross, crosses, 0, at);
  for (int k = from; k < to; k += kLanes) {
    Floats upper, left, right, next, b0, b1, b2;
    load(b.upper + k, upper);
    load(s.near + k, left);
    load(s.near + k + 1, right);
    load(s.near + k + 2, next);
    load(bulge + k, b0);
    load(bulge + k + 1, b1);
    load(bulge + k + 2, b2);
    raise(b0, b1);
    raise(b0, b2);
    const Floats here = left + (right - left) * part;
    raise(upper, here + b0);
    upper -= s.drop;
    for (std::size_t c = 0; c < at.count; ++c) {
      Floats p, q;
      load(at.near[c] + k, p);
      load(at.far[c] + k, q);
      raise(upper, p + (q - p) * at.part[c] + b0 - at.fall[c]);
    }
    // Between its last crossing and the end the line may rise up to the row it comes to.
    Floats p0, p1;
    load(s.far + k + s.end_step, p0);
    load(s.far + k + s.end_step + 1, p1);
    raise(upper, p0 + (p1 - p0) * s.end_part + b0);
    std::memcpy(b.upper + k, &upper, sizeof upper);
    Floats lowest = right + (next - right) * part;
    lowest = lowest < here ? lowest : here;
    lowest = lowest < right ? lowest : right;
    Floats lower;
    load(b.lower + k, lower);
    if (k >= 0 && k + kLanes <= inside) {
      raise(lower, lowest);
    } else {
      for (int n = 0; n < kLanes; ++n) {
        if (k + n >= 0 && k + n < inside && lowest[n] > lower[n]) lower[n] = lowest[n];
      }
    }
    lower -= s.drop;
    std::memcpy(b.lower + k, &lower, sizeof lower);
  }
}

// Judges the nodes of `far`. The way of node i meets `near` at i − shift: `back` past node
// i + first, and between the lines k = i + line and k + 1, `between` past the former.
struct Judge {
  int first = 0;
  float back = 0;
  int line = 0;
  float between = 0;
};
HUMMOCK_WIDE
void judge(const RowStep& s, const Judge& j, const Crossing* cross, std::size_t crosses,
           const Bounds& b, int count, GroundShade* out) {
  Crossed at;
  set_crossed(s, cross, crosses, j.first, at);
  for (int i = 0; i < count; i += kLanes) {
    Floats left, right, node, u0, u1, lower;
    load(s.near + i + j.first, left);
    load(s.near + i + j.first + 1, right);
    Floats own = left + (right - left) * j.back - s.drop;
    for (std::size_t c = 0; c < at.count; ++c) {
      Floats p, q;
      load(at.near[c] + i, p);
      load(at.far[c] + i, q);
      raise(own, p + (q - p) * at.part[c] - at.fall[c]);
    }
    load(b.upper + i + j.line, u0);
    load(b.upper + i + j.line + 1, u1);
    load(b.lower + i + j.line, lower);
    const Floats upper = u0 + (u1 - u0) * j.between - s.drop;
    load(s.far + i, node);
    node += static_cast<float>(kLift);
    const Flags dark = (own > node + kSure) | (lower - s.drop > node + kSure);
    const Flags lit = (own < node - kSure) & (upper < node - kSure);
    const Flags shade = dark ? Flags{} + static_cast<int>(GroundShade::dark)
                             : (lit ? Flags{} : Flags{} + static_cast<int>(GroundShade::open));
    Bytes bytes;
    as_bytes(shade, bytes);
    if (i + kLanes <= count)
      std::memcpy(out + i, &bytes, sizeof bytes);
    else
      std::memcpy(out + i, &bytes, static_cast<std::size_t>(count - i));
  }
  // A way that leaves the grid at once, over its side, is not judged by ground that is not there.
  if (j.first < 0 && count > 0) out[0] = GroundShade::open;
  if ((j.first > 0 || j.back > 0.0F) && j.first >= 0 && count > 0) {
    out[count - 1] = GroundShade::open;
  }
}

}  // namespace

GroundSweep::GroundSweep(const geom::Heightfield& ground) : cell_(ground.grid.cell) {
  const int nx = ground.grid.nx, ny = ground.grid.ny;
  const double base = ground.z.empty() ? 0.0 : *std::min_element(ground.z.begin(), ground.z.end());
  const auto lay = [&](Heights& h, int across, int up, const auto& height) {
    h.nx = across;
    h.ny = up;
    h.stride = static_cast<std::size_t>(across) + 2 * kPad + kLanes;
    h.z.resize(h.stride * static_cast<std::size_t>(up));
    for (int r = 0; r < up; ++r) {
      float* row = h.z.data() + static_cast<std::size_t>(r) * h.stride;
      for (int c = 0; c < static_cast<int>(h.stride); ++c) {
        row[c] = static_cast<float>(height(std::clamp(c - kPad, 0, across - 1), r) - base);
      }
    }
  };
  lay(straight_, nx, ny, [&](int c, int r) { return ground.at(c, r); });
  lay(turned_, ny, nx, [&](int c, int r) { return ground.at(r, c); });
}

GroundStatus GroundSweep::status(const SunRay& sun) const {
  const bool turn = std::abs(sun.run.x) > std::abs(sun.run.y);
  const Heights& h = turn ? turned_ : straight_;
  const double towards = turn ? sun.run.x : sun.run.y;  // along the rows' order
  const double across = turn ? sun.run.y : sun.run.x;
  const bool falling = towards > 0.0;  // the sun stands beyond the last row
  const double shift = std::abs(towards) > 0.0 ? -across / std::abs(towards) : 0.0;
  RowStep step;
  step.drop = static_cast<float>(std::abs(towards) > 1e-9 ? cell_ / std::abs(towards) : 1e4);

  GroundStatus result;
  result.transposed = turn;
  result.stride = static_cast<std::size_t>(h.nx);
  result.nodes.assign(static_cast<std::size_t>(h.nx) * static_cast<std::size_t>(h.ny),
                      GroundShade::lit);
  // Line k at step r stands at k + shift · r; all that ever cross the grid, stored from `lowest`.
  const int lowest = static_cast<int>(std::floor(std::min(0.0, -shift * h.ny))) - kPad;
  const int highest = h.nx + static_cast<int>(std::ceil(std::max(0.0, -shift * h.ny))) + kPad;
  std::vector<float> upper(static_cast<std::size_t>(highest - lowest + 2 * kPad + kLanes),
                           kNothing);
  std::vector<float> lower = upper;
  std::vector<float> bulge(h.stride + kLanes, 0.0F);

  // The nodes' own crossings on the way from the row towards the sun.
  Judge node;
  node.first = static_cast<int>(std::floor(-shift));
  node.back = static_cast<float>(-shift - node.first);
  const std::vector<Crossing> own = crossings(-shift - node.first, shift, falling);

  for (int r = 0; r + 1 < h.ny; ++r) {
    const int near = falling ? h.ny - 1 - r : r;
    const int far = falling ? near - 1 : near + 1;
    step.near = h.row(near) + kPad;
    step.far = h.row(far) + kPad;
    const double offset = shift * r;
    const int whole = static_cast<int>(std::floor(offset));
    const double part = offset - whole;
    step.end_step = static_cast<int>(std::floor(part + shift));
    step.end_part = static_cast<float>(part + shift - step.end_step);
    // Line k lies `part` past node k + whole: shift the store so that index = node.
    const Bounds bounds{upper.data() + kPad - lowest - whole, lower.data() + kPad - lowest - whole};
    const double gone = -shift - part;  // node i's way meets near at i − shift = line i + gone
    node.line = static_cast<int>(std::floor(gone));
    node.between = static_cast<float>(gone - node.line);
    judge(step, node, own.data(), own.size(), bounds, h.nx,
          result.nodes.data() + static_cast<std::size_t>(far) * result.stride);
    const std::vector<Crossing> cross = crossings(part, shift, falling);
    bulges(falling ? step.far : step.near, falling ? step.near : step.far, -8, h.nx + 8,
           bulge.data() + kPad);
    carry(step, static_cast<float>(part), cross.data(), cross.size(),
          bulge.data() + kPad - (shift < 0.0 ? 1 : 0), -4, h.nx + 4, h.nx - 2, bounds);
  }
  return result;
}

}  // namespace hummock::shade
