#include "engine/leap/places/narrow_crest.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

constexpr int kDirections = 8;
constexpr double kFrom = 0.25, kStep = 0.125;  // of the perch, along each direction

class Crest {
 public:
  Crest(const Model& model, double perch, double stand_slope)
      : model_(model),
        perch_(perch),
        fall_(perch * std::tan(std::max(stand_slope, 45.0 * geom::kDegree))) {}

  // Something to rest on at a place on plan, about as high as z.
  std::optional<Vec3> rest(Vec2 p, double z) const {
    const Vec3 from = at_height(p, z + perch_);
    const geom::Hit hit =
        model_.body_scene->first_hit({from, {0.0, 0.0, -1.0}, 0.0, perch_ + fall_});
    if (!hit) return std::nullopt;
    return from - Vec3{0.0, 0.0, hit.t};
  }

  bool borne_round(Vec3 middle) const {
    for (int k = 0; k < kDirections; ++k) {
      if (!borne_towards(middle, direction(k))) return false;
    }
    return true;
  }

  static Vec2 direction(int k) {
    const double turn = 2.0 * geom::kPi * k / kDirections;
    return {std::cos(turn), std::sin(turn)};
  }

 private:
  bool borne_towards(Vec3 middle, Vec2 along) const {
    constexpr double kOver = 0.01;  // m, of the surface
    const Vec3 from = middle + Vec3{0.0, 0.0, kOver};
    if (!model_.body_scene->segment_free(from, from + at_height(along * perch_, 0.0))) return true;
    for (int k = 0; kFrom + k * kStep <= 1.0; ++k) {
      const double share = kFrom + k * kStep;
      if (rest(xy(middle) + along * (share * perch_), middle.z)) return true;
    }
    return false;
  }

  const Model& model_;
  double perch_;  // m
  double fall_;   // m
};

}  // namespace

bool wide_enough(const Model& model, Vec3 p, double perch, double stand_slope) {
  const Crest crest(model, perch, stand_slope);
  if (crest.borne_round(p)) return true;
  for (const double share : {0.5, 1.0}) {
    for (int k = 0; k < kDirections; ++k) {
      const Vec2 aside = Crest::direction(k) * (share * perch);
      const auto middle = crest.rest(xy(p) + aside, p.z);
      if (middle && crest.borne_round(*middle)) return true;
    }
  }
  return false;
}

}  // namespace hummock::leap
