#include "engine/dig/section/buried_pieces.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace hummock::dig {

namespace {

using Pieces = std::vector<Piece>;

void keep(Pieces& kept, Vec2 a, Vec2 b, std::uint32_t kind) {
  // A root is taken of the shortest only.
  const bool long_enough = std::abs(b.x - a.x) > kWeldDistance ||
                           std::abs(b.y - a.y) > kWeldDistance ||
                           geom::distance(a, b) > kWeldDistance;
  if (long_enough) kept.push_back({a, b, kind});
}

void clip_upright(const GroundLine& ground, const Piece& piece, Pieces& kept) {
  const double top = height_on(ground, piece.a.x);
  const auto clipped = [&](Vec2 p) { return Vec2{p.x, p.y > top - kWeldDistance ? top : p.y}; };
  keep(kept, clipped(piece.a), clipped(piece.b), piece.kind);
}

// Below the ground, or on it within the weld distance: kept, the latter laid on the ground exactly.
void clip_step(const GroundLine& ground, Vec2 p, Vec2 q, std::uint32_t kind, Pieces& kept) {
  const auto sunk = [&](Vec2 v) { return height_on(ground, v.x) - v.y; };
  double dp = sunk(p);
  double dq = sunk(q);
  const auto land = [&](Vec2& v, double& d) {
    if (std::abs(d) <= kWeldDistance) {
      v.y = height_on(ground, v.x);
      d = 0.0;
    }
  };
  land(p, dp);
  land(q, dq);
  if (dp < 0.0 && dq < 0.0) return;
  if (dp < 0.0 || dq < 0.0) {
    Vec2 cut = lerp(p, q, dp / (dp - dq));
    cut.y = height_on(ground, cut.x);
    (dp < 0.0 ? p : q) = cut;
  }
  keep(kept, p, q, kind);
}

// Joins consecutive parts of one straight piece that were cut at the ground's points, unless they
// lie on the ground (there every point counts).
void append_joined(Pieces& kept, const Pieces& parts, const GroundLine& ground) {
  for (const Piece& part : parts) {
    const auto sunk = [&](Vec2 v) { return height_on(ground, v.x) - v.y > kWeldDistance; };
    const bool joins = !kept.empty() && kept.back().b == part.a && kept.back().kind == part.kind &&
                       sunk(part.a) && &part != &parts.front();
    if (joins) {
      kept.back().b = part.b;
    } else {
      kept.push_back(part);
    }
  }
}

// Does the piece, a.x < b.x, lie so deep that cutting it at the ground's points and joining it
// again gives it back? Every part is then kept, as none is short, and ends below the ground.
bool is_deep(const GroundLine& ground, const Piece& piece) {
  constexpr double kSure = 2.0 * kWeldDistance;
  const double below = std::max(piece.a.y, piece.b.y) + kSure;
  std::size_t k = first_beyond(ground, piece.a.x);
  if (k > 0 && ground[k - 1].y < below) return false;
  double last = piece.a.x;
  for (; k < ground.size() && ground[k].x < piece.b.x; ++k) {
    if (ground[k].y < below || ground[k].x - last < kSure) return false;
    last = ground[k].x;
  }
  return piece.b.x - last >= kSure && (k == ground.size() || ground[k].y >= below);
}

Pieces below_ground(const GroundLine& ground, const Pieces& pieces) {
  Pieces kept, parts;
  kept.reserve(pieces.size());
  for (Piece piece : pieces) {
    if (piece.a.x > piece.b.x) std::swap(piece.a, piece.b);
    if (piece.b.x - piece.a.x < 1e-9) {
      clip_upright(ground, piece, kept);
      continue;
    }
    if (is_deep(ground, piece)) {
      kept.push_back(piece);
      continue;
    }
    parts.clear();
    Vec2 from = piece.a;
    for (std::size_t k = first_beyond(ground, piece.a.x);
         k < ground.size() && ground[k].x < piece.b.x; ++k) {
      const double t = (ground[k].x - piece.a.x) / (piece.b.x - piece.a.x);
      const Vec2 to{ground[k].x, piece.a.y + (piece.b.y - piece.a.y) * t};
      clip_step(ground, from, to, piece.kind, parts);
      from = to;
    }
    clip_step(ground, from, piece.b, piece.kind, parts);
    append_joined(kept, parts, ground);
  }
  return kept;
}

double lo_x(const Piece& p) {
  return std::min(p.a.x, p.b.x);
}

double hi_x(const Piece& p) {
  return std::max(p.a.x, p.b.x);
}

// The sides of the footings, by where they begin, so that those over a step are found.
class Footings {
 public:
  explicit Footings(const Pieces& pieces) {
    std::copy_if(pieces.begin(), pieces.end(), std::back_inserter(sides_),
                 [](const Piece& p) { return p.kind == kFooting; });
    std::sort(sides_.begin(), sides_.end(),
              [](const Piece& p, const Piece& q) { return lo_x(p) < lo_x(q); });
    for (const Piece& p : sides_) {
      widest_ = std::max(widest_, hi_x(p) - lo_x(p));
      last_ = std::max(last_, hi_x(p));
    }
  }

  bool any() const { return !sides_.empty(); }
  double first() const { return lo_x(sides_.front()); }
  double last() const { return last_; }

  // Those that have something of x0..x1.
  void over(double x0, double x1, Pieces& found) const {
    found.clear();
    auto it = std::lower_bound(sides_.begin(), sides_.end(), x0 - widest_ - kWeldDistance,
                               [](const Piece& p, double x) { return lo_x(p) < x; });
    for (; it != sides_.end() && lo_x(*it) <= x1; ++it) {
      if (hi_x(*it) >= x0) found.push_back(*it);
    }
  }

 private:
  Pieces sides_;
  double widest_ = 0.0, last_ = -1e300;
};

// How often the footings' outlines wind round p: 0 = in none of them.
int footings_round(const Pieces& footings, Vec2 p) {
  int winds = 0;
  for (const Piece& piece : footings) {
    const bool leftward = piece.a.x > p.x;
    if (leftward == (piece.b.x > p.x)) continue;
    const double t = (p.x - piece.a.x) / (piece.b.x - piece.a.x);
    if (piece.a.y + (piece.b.y - piece.a.y) * t > p.y) winds += leftward ? 1 : -1;
  }
  return winds;
}

void add_crossing_places(const Vec2& g, const Vec2& h, const Pieces& footings,
                         std::vector<double>& xs) {
  for (const Piece& piece : footings) {
    const Vec2 d = piece.b - piece.a;
    const double det = cross(h - g, d);
    if (det == 0.0) continue;
    const double t = cross(piece.a - g, d) / det;
    const double s = cross(piece.a - g, h - g) / det;
    if (t > 0.0 && t < 1.0 && s >= 0.0 && s <= 1.0) xs.push_back(g.x + (h.x - g.x) * t);
  }
}

// The ground inside a footing is no place to dig from: a lid on it.
void add_lids(const GroundLine& ground, const Pieces& pieces, Pieces& buried) {
  const Footings footings(pieces);
  if (!footings.any()) return;
  std::vector<double> xs;
  Pieces over;
  for (std::size_t k = std::max<std::size_t>(1, first_beyond(ground, footings.first()));
       k < ground.size() && ground[k - 1].x <= footings.last(); ++k) {
    footings.over(ground[k - 1].x, ground[k].x, over);
    xs.assign({ground[k - 1].x, ground[k].x});
    add_crossing_places(ground[k - 1], ground[k], over, xs);
    std::sort(xs.begin(), xs.end());
    for (std::size_t i = 1; i < xs.size(); ++i) {
      const Vec2 p{xs[i - 1], height_on(ground, xs[i - 1])};
      const Vec2 q{xs[i], height_on(ground, xs[i])};
      if (footings_round(over, lerp(p, q, 0.5)) != 0) keep(buried, p, q, kFooting);
    }
  }
}

}  // namespace

Pieces buried_pieces(const GroundLine& ground, const Pieces& pieces) {
  Pieces buried = below_ground(ground, pieces);
  add_lids(ground, pieces, buried);
  return buried;
}

}  // namespace hummock::dig
