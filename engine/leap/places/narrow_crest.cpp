#include "engine/leap/places/narrow_crest.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

constexpr int kAxes = 16;         // over half a turn
constexpr double kStep = 0.125;   // of the perch, along each direction
constexpr int kHalvings = 4;      // of a step, at the rim
constexpr double kAsWide = 0.98;  // of the perch: what the rim and the axes leave out
constexpr int kDirections = 8;    // in which a middle is sought

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

  bool wide_round(Vec3 middle) const {
    for (int k = 0; k < kAxes; ++k) {
      const Vec2 along = direction(geom::kPi * k / kAxes);
      if (extent(middle, along) + extent(middle, along * -1.0) < kAsWide * perch_) return false;
    }
    return true;
  }

  // The middle of the top along either axis in turn: of a round or straight top, its own.
  std::optional<Vec3> centred(Vec3 p) const {
    for (int k = 0; k < 4; ++k) {
      const Vec2 along = direction(0.5 * geom::kPi * k);
      const double off = 0.5 * (extent(p, along) - extent(p, along * -1.0));
      const auto middle = rest(xy(p) + along * off, p.z);
      if (!middle) return std::nullopt;
      p = *middle;
    }
    return p;
  }

  static Vec2 direction(double turn) { return {std::cos(turn), std::sin(turn)}; }

 private:
  // How far off the farthest thing to rest on is, at most the perch.
  double extent(Vec3 middle, Vec2 along) const {
    const Vec3 from = middle + Vec3{0.0, 0.0, perch_};
    if (!model_.body_scene->segment_free(from, from + at_height(along * perch_, 0.0)))
      return perch_;
    const auto borne = [&](double share) {
      return rest(xy(middle) + along * (share * perch_), middle.z).has_value();
    };
    double bears = 1.0;
    while (bears > 0.0 && !borne(bears)) bears -= kStep;
    double not_any_more = std::min(1.0, bears + kStep);
    for (int k = 0; k < kHalvings && bears < 1.0; ++k) {
      const double middle_share = 0.5 * (bears + not_any_more);
      (borne(middle_share) ? bears : not_any_more) = middle_share;
    }
    return bears * perch_;
  }

  const Model& model_;
  double perch_;  // m
  double fall_;   // m
};

bool wide_about(const Crest& crest, Vec3 p) {
  if (crest.wide_round(p)) return true;
  const auto middle = crest.centred(p);
  return middle && crest.wide_round(*middle);
}

}  // namespace

bool wide_enough(const Model& model, Vec3 p, double perch, double stand_slope) {
  const Crest crest(model, perch, stand_slope);
  if (wide_about(crest, p)) return true;
  for (const double share : {0.5, 1.0}) {
    for (int k = 0; k < kDirections; ++k) {
      const Vec2 aside = Crest::direction(2.0 * geom::kPi * k / kDirections) * (share * perch);
      const auto middle = crest.rest(xy(p) + aside, p.z);
      if (middle && wide_about(crest, *middle)) return true;
    }
  }
  return false;
}

}  // namespace hummock::leap
