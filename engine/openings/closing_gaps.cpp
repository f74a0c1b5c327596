#include "engine/openings/closing_gaps.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::openings {

namespace {

using geom::Vec3;
using FaceCorners = Vec3[3];
using FacePiece = std::vector<Vec3>;  // convex, in a plane

struct BallFace {
  Vec3 at, normal;  // unit, towards the ball
};

// Where `value`, a straight function of the place, is not below 0.
template <class Value>
FacePiece kept_where(const FacePiece& piece, const Value& value) {
  FacePiece kept;
  for (std::size_t k = 0; k < piece.size(); ++k) {
    const Vec3 p = piece[k], q = piece[(k + 1) % piece.size()];
    const double vp = value(p), vq = value(q);
    if (vp >= 0.0) kept.push_back(p);
    if ((vp > 0.0 && vq < 0.0) || (vp < 0.0 && vq > 0.0))
      kept.push_back(lerp(p, q, vp / (vp - vq)));
  }
  return kept;
}

// Balls that touch two planes: on the first at p, with the middle straight over it.
class Balls {
 public:
  Balls(const BallFace& first, const BallFace& second)
      : first_(first), second_(second), share_(1.0 / (1.0 - dot(first.normal, second.normal))) {}

  double radius(Vec3 p) const { return dot(second_.normal, p - second_.at) * share_; }
  Vec3 middle(Vec3 p) const { return p + first_.normal * radius(p); }
  Vec3 on_second(Vec3 p) const { return middle(p) - second_.normal * radius(p); }

 private:
  const BallFace &first_, &second_;
  double share_;
};

// Of the first triangle, where a ball touches both.
FacePiece where_both_are_touched(const FaceCorners& first, const FaceCorners& second,
                                 const BallFace& of_second, const Balls& balls) {
  FacePiece piece{first[0], first[1], first[2]};
  const Vec3 turn = cross(second[1] - second[0], second[2] - second[0]);
  const double hand = dot(turn, of_second.normal) > 0.0 ? 1.0 : -1.0;
  for (std::size_t k = 0; k < 3 && !piece.empty(); ++k) {
    const Vec3 a = second[k], b = second[(k + 1) % 3];
    const Vec3 in = cross(of_second.normal, b - a) * hand;
    piece = kept_where(piece, [&](Vec3 p) { return dot(in, balls.on_second(p) - a); });
  }
  return piece;
}

class ClosingSearch {
 public:
  ClosingSearch(const Model& model, const FacedPart& first, const FacedPart& second, double from,
                double to)
      : model_(model), first_(first), second_(second), from_(from), to_(to) {}

  std::optional<ClosingGap> run() {
    if (model_.body_scene == nullptr) return std::nullopt;
    geom::near_triangles(*first_.tree, *second_.tree, to_,
                         [this](const FaceCorners& first, const FaceCorners& second) {
                           look_at(first, second);
                           return !best_ || off(best_->width) > 0.0;
                         });
    return best_;
  }

 private:
  double middle() const { return 0.5 * (from_ + to_); }
  double off(double width) const { return std::abs(width - middle()); }
  bool closed(const FacedPart& part) const {
    return model_.parts[static_cast<std::size_t>(part.part)].closed;
  }

  // Sheets have two sides.
  void look_at(const FaceCorners& first, const FaceCorners& second) {
    const Vec3 n = cross(first[1] - first[0], first[2] - first[0]);
    const Vec3 m = cross(second[1] - second[0], second[2] - second[0]);
    const double across = dot(n, m), sizes = std::sqrt(dot(n, n) * dot(m, m));
    if (!(sizes > 0.0) || std::abs(across) < std::cos(kClosing) * sizes) return;
    for (const double u : {1.0, -1.0}) {
      if (u < 0.0 && closed(first_)) continue;
      for (const double v : {1.0, -1.0}) {
        if ((v < 0.0 && closed(second_)) || u * v * across > 0.0) continue;
        between(first, second, {first[0], geom::unit(n) * u}, {second[0], geom::unit(m) * v});
      }
    }
  }

  void between(const FaceCorners& first, const FaceCorners& second, const BallFace& of_first,
               const BallFace& of_second) {
    const Balls balls(of_first, of_second);
    FacePiece piece = where_both_are_touched(first, second, of_second, balls);
    const auto wider = [&](double d) {
      return [&balls, d](Vec3 p) { return 2.0 * balls.radius(p) - d; };
    };
    const auto narrower = [&](double d) {
      return [&balls, d](Vec3 p) { return d - 2.0 * balls.radius(p); };
    };
    piece = kept_where(kept_where(piece, wider(from_)), narrower(to_));
    if (piece.empty()) return;
    // At the widths nearest to the middle, each as a thin slice.
    constexpr double kAway[] = {0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 0.98, -0.98};
    const auto [least, most] = std::minmax_element(piece.begin(), piece.end(), [&](Vec3 p, Vec3 q) {
      return balls.radius(p) < balls.radius(q);
    });
    const double lo = 2.0 * balls.radius(*least), hi = 2.0 * balls.radius(*most);
    for (const double away : kAway) {
      const double width = std::clamp(middle() + away * 0.5 * (to_ - from_), lo, hi);
      if (width >= to_ || (best_ && off(width) >= off(best_->width))) continue;
      const double thin = 1e-6 * to_;
      take_free(balls, kept_where(kept_where(piece, wider(width - thin)), narrower(width + thin)),
                width);
    }
  }

  // In the middle of the slice, and towards its corners.
  void take_free(const Balls& balls, const FacePiece& slice, double width) {
    constexpr double kTowards[] = {0.0, 0.5, 0.95};
    if (slice.empty()) return;
    Vec3 centre;
    for (const Vec3 p : slice) centre = centre + p * (1.0 / static_cast<double>(slice.size()));
    for (const double share : kTowards) {
      for (const Vec3 corner : slice) {
        const Vec3 at = balls.middle(lerp(centre, corner, share));
        if (!is_free(at, 0.5 * width)) continue;
        best_ = ClosingGap{at, width};
        return;
      }
    }
  }

  bool is_free(Vec3 at, double radius) const {
    constexpr double kTouching = 0.98;
    const double least = kTouching * radius;
    return at.z > geom::height_at(model_.ground, xy(at)) &&
           geom::contains(model_.outline, xy(at)) &&
           geom::distance_to(*first_.tree, at, radius) >= least &&
           geom::distance_to(*second_.tree, at, radius) >= least && !in_another(at);
  }

  // A line straight up leaves some closed part more often than it enters it.
  bool in_another(Vec3 at) const {
    std::vector<std::pair<int, int>> depth;  // of each part met
    for (const geom::Hit& hit : model_.body_scene->all_hits({at, {0.0, 0.0, 1.0}, 0.0, 1e30})) {
      if (hit.id == kGroundId || !model_.parts[static_cast<std::size_t>(hit.id)].closed) continue;
      const auto of = std::find_if(depth.begin(), depth.end(),
                                   [&](const auto& d) { return d.first == hit.id; });
      auto& count = of == depth.end() ? depth.emplace_back(hit.id, 0) : *of;
      count.second += hit.normal.z > 0.0 ? 1 : -1;
    }
    return std::any_of(depth.begin(), depth.end(), [](const auto& d) { return d.second > 0; });
  }

  const Model& model_;
  const FacedPart &first_, &second_;
  double from_, to_;  // m
  std::optional<ClosingGap> best_;
};

}  // namespace

std::optional<ClosingGap> closing_gap(const Model& model, const FacedPart& first,
                                      const FacedPart& second, double from, double to) {
  if (!(to > from)) return std::nullopt;
  return ClosingSearch(model, first, second, from, to).run();
}

}  // namespace hummock::openings
