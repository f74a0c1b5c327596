#include "engine/shade/cast/curtains.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace hummock::shade {
namespace {

// What upright triangles fill over one step along the line: heights at its start and end.
struct Fill {
  double low0, low1, high0, high1;
};

// The upright plane over a line in plan.
struct Line {
  Vec2 normal, along;
  double off = 0.0;
  Vec3 at(double u, double z) const { return at_height(normal * off + along * u, z); }
};

struct Step {
  double u0, u1;
  bool any;
  Fill fill;
};

double between(Vec2 a, Vec2 b, double u) {
  if (u <= a.x) return a.y;
  return u >= b.x ? b.y : a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x);
}

class OneLine {
 public:
  OneLine(const geom::Mesh& mesh, const Line& line, const std::vector<std::uint32_t>& ids)
      : line_(line) {
    for (const std::uint32_t id : ids) {
      Corners c;
      for (std::size_t k = 0; k < 3; ++k) {
        const Vec3 v = mesh.vertices[mesh.triangles[id][k]];
        c[k] = {dot(line.along, xy(v)), v.z};
        breaks_.push_back(c[k].x);
      }
      std::sort(c.begin(), c.end(), [](Vec2 a, Vec2 b) { return a.x < b.x; });
      corners_.push_back(c);
    }
    std::sort(breaks_.begin(), breaks_.end());
    std::size_t kept = 1;
    for (std::size_t k = 1; k < breaks_.size(); ++k)
      if (breaks_[k] - breaks_[kept - 1] > kFlat) breaks_[kept++] = breaks_[k];
    breaks_.resize(kept);
  }

  // False where somewhere more than one stretch of height is filled, or one twice.
  bool steps(std::vector<Step>& out) {
    fills_.resize(breaks_.size() - 1);
    for (const Corners& c : corners_) fill(c);
    for (std::size_t k = 0; k + 1 < breaks_.size(); ++k) {
      Step s{breaks_[k], breaks_[k + 1], !fills_[k].empty(), {}};
      if (s.any && !one_stretch(fills_[k], s.fill)) return false;
      out.push_back(s);
    }
    return true;
  }

 private:
  using Corners = std::array<Vec2, 3>;

  std::size_t nearest(double u) const {
    const auto at = std::lower_bound(breaks_.begin(), breaks_.end(), u - kFlat);
    return static_cast<std::size_t>(at - breaks_.begin());
  }

  void fill(const Corners& c) {
    const std::size_t last = nearest(c[2].x), middle = nearest(c[1].x);
    for (std::size_t k = nearest(c[0].x); k < last; ++k) {
      const double u0 = breaks_[k], u1 = breaks_[k + 1];
      const Vec2 a = k < middle ? c[0] : c[1], b = k < middle ? c[1] : c[2];
      const double p0 = between(c[0], c[2], u0), p1 = between(c[0], c[2], u1);
      const double q0 = between(a, b, u0), q1 = between(a, b, u1);
      fills_[k].push_back(p0 + p1 < q0 + q1 ? Fill{p0, p1, q0, q1} : Fill{q0, q1, p0, p1});
    }
  }

  static bool one_stretch(std::vector<Fill>& fills, Fill& all) {
    std::sort(fills.begin(), fills.end(),
              [](const Fill& a, const Fill& b) { return a.low0 + a.low1 < b.low0 + b.low1; });
    all = fills.front();
    for (std::size_t k = 1; k < fills.size(); ++k) {
      if (std::abs(fills[k].low0 - all.high0) > kFlat ||
          std::abs(fills[k].low1 - all.high1) > kFlat)
        return false;
      all.high0 = fills[k].high0;
      all.high1 = fills[k].high1;
    }
    return true;
  }

  Line line_;
  std::vector<Corners> corners_;
  std::vector<double> breaks_;
  std::vector<std::vector<Fill>> fills_;
};

// Steps on which the top goes straight on and the foot does not jump.
class Joined {
 public:
  explicit Joined(const Line& line) : line_(line) {}
  void add(const Step& s) {
    if (open_ && !goes_on(s)) close();
    if (!s.any) return;
    if (!open_) {
      open_ = true;
      first_ = s;
      foot_ = {{s.u0, s.fill.low0}};
    } else if (straight(foot_, {s.u1, s.fill.low1})) {
      foot_.pop_back();
    }
    foot_.push_back({s.u1, s.fill.low1});
    last_ = s;
  }
  std::vector<Piece> done() {
    if (open_) close();
    return std::move(pieces_);
  }

 private:
  static constexpr double kSlope = 1e-8;        // m/m between slopes that are one
  static constexpr std::size_t kMostFoot = 32;  // corners of a foot; layout of the work

  static double slope(Vec2 a, Vec2 b) { return (b.y - a.y) / (b.x - a.x); }
  static double top(const Step& s) { return slope({s.u0, s.fill.high0}, {s.u1, s.fill.high1}); }
  static bool straight(const std::vector<Vec2>& foot, Vec2 next) {
    if (foot.size() < 2) return false;
    const Vec2 a = foot[foot.size() - 2], b = foot.back();
    return std::abs(slope(a, b) - slope(b, next)) <= kSlope;
  }
  bool goes_on(const Step& s) const {
    return s.any && foot_.size() < kMostFoot &&
           std::abs(s.fill.high0 - last_.fill.high1) <= kFlat &&
           std::abs(s.fill.low0 - last_.fill.low1) <= kFlat &&
           std::abs(top(s) - top(last_)) <= kSlope;
  }
  void close() {
    open_ = false;
    Piece p;
    p.kind = PieceKind::curtain;
    p.along = line_.along;
    p.points = {line_.at(first_.u0, first_.fill.low0), line_.at(last_.u1, last_.fill.low1),
                line_.at(last_.u1, last_.fill.high1), line_.at(first_.u0, first_.fill.high0)};
    p.corners = {0, 1, 2, 3};
    p.faces = {{0, 4, at_height(line_.normal, 0.0)}};
    for (const Vec3& v : p.points) p.box.add(v);
    for (const Vec2& f : foot_) p.box.add(line_.at(f.x, f.y));
    if (foot_.size() > 2) p.foot = foot_;
    pieces_.push_back(std::move(p));
  }

  Line line_;
  bool open_ = false;
  Step first_{}, last_{};
  std::vector<Vec2> foot_;
  std::vector<Piece> pieces_;
};

}  // namespace

std::vector<Piece> take_curtains(const geom::Mesh& mesh, const std::vector<Vec3>& normals,
                                 std::vector<char>& taken) {
  constexpr double kUpright = 1e-9, kTurns = 1e6, kOffs = 1e5;  // same line: rounded alike
  std::map<std::array<long long, 3>, std::pair<Line, std::vector<std::uint32_t>>> lines;
  for (std::size_t k = 0; k < normals.size(); ++k) {
    if (std::abs(normals[k].z) > kUpright || normals[k] == Vec3{}) continue;
    Vec2 n = unit(xy(normals[k]));
    if (n.x < -0.5 / kTurns || (n.x < 0.5 / kTurns && n.y < 0.0)) n = -n;
    const double off = dot(n, xy(mesh.vertices[mesh.triangles[k][0]]));
    auto& [line, ids] =
        lines[{std::llround(n.x * kTurns), std::llround(n.y * kTurns), std::llround(off * kOffs)}];
    if (ids.empty()) line = {n, {-n.y, n.x}, off};
    ids.push_back(static_cast<std::uint32_t>(k));
  }
  std::vector<Piece> pieces;
  for (const auto& [key, of] : lines) {
    const auto& [line, ids] = of;
    std::vector<Step> steps;
    if (!OneLine(mesh, line, ids).steps(steps)) continue;
    Joined joined(line);
    for (const Step& s : steps) joined.add(s);
    for (Piece& p : joined.done()) pieces.push_back(std::move(p));
    for (const std::uint32_t id : ids) taken[id] = 1;
  }
  return pieces;
}

}  // namespace hummock::shade
