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
constexpr double kLow = 0.01;     // m, above the top: what begins higher leaves room for a foot
constexpr double kClear = 1e-4;   // m, at the ends of a ray
constexpr double kBefore = 1e-3;  // m, that a foot stays before a sheet

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

  // As far as a fence's sheet that rises from the top, at most the perch; nothing where something
  // else rises first, or a sheet that leaves a gap under it.
  std::optional<double> as_far_as_a_sheet(Vec3 middle, Vec2 along) const {
    const auto beside = [&](double up) {
      const Vec3 from = middle + Vec3{0.0, 0.0, up};
      return model_.body_scene->first_hit({from, at_height(along, 0.0), kClear, perch_ - kClear});
    };
    const geom::Hit high = beside(perch_);
    if (!high) return perch_;
    const geom::Hit low = beside(kLow);
    if (!fence_sheet(high) || !fence_sheet(low)) return std::nullopt;
    return std::max(0.0, std::max(high.t, low.t) - kBefore);
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
    const std::optional<double> room = as_far_as_a_sheet(middle, along);
    if (!room) return perch_;
    const auto borne = [&](double share) {
      return rest(xy(middle) + along * (share * perch_), middle.z).has_value();
    };
    const double most = *room / perch_;
    double bears = most;
    while (bears > 0.0 && !borne(bears)) bears -= kStep;
    bears = std::max(0.0, bears);
    double not_any_more = std::min(most, bears + kStep);
    for (int k = 0; k < kHalvings && bears < most; ++k) {
      const double middle_share = 0.5 * (bears + not_any_more);
      (borne(middle_share) ? bears : not_any_more) = middle_share;
    }
    return bears * perch_;
  }

  bool fence_sheet(const geom::Hit& hit) const {
    if (!hit || hit.id == kGroundId) return false;
    const PartKind kind = model_.parts[static_cast<std::size_t>(hit.id)].kind;
    return kind == PartKind::panel || kind == PartKind::gate || kind == PartKind::vestibule;
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
      const Vec2 along = Crest::direction(2.0 * geom::kPi * k / kDirections);
      if (share * perch > crest.as_far_as_a_sheet(p, along).value_or(perch)) continue;
      const auto middle = crest.rest(xy(p) + along * (share * perch), p.z);
      if (middle && wide_about(crest, *middle)) return true;
    }
  }
  return false;
}

}  // namespace hummock::leap
