#include "engine/burrows/spot_score.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hummock::burrows {
namespace {

// common practice, no source: these three
constexpr double kGoodSlopeFrom = 5.0 * geom::kDegree;
constexpr double kGoodSlopeTo = 25.0 * geom::kDegree;
constexpr double kLevelScore = 0.5;
constexpr double kLeastReach =
    1.0;  // m, of an animal that does not dig; common practice, no source

std::optional<double> soil_depth(const Model& model, Vec2 p) {
  if (!model.site.ground.soil_depth) return std::nullopt;
  const double now = height_at(model.ground, p);
  const double before = model.surveyed.z.empty() ? now : height_at(model.surveyed, p);
  return now - (std::min(now, before) - *model.site.ground.soil_depth);
}

double slope_score(double slope, double stand_slope) {
  const double steepest = std::max(stand_slope, kGoodSlopeTo + geom::kDegree);
  if (slope < kGoodSlopeFrom) return kLevelScore + (1 - kLevelScore) * slope / kGoodSlopeFrom;
  if (slope <= kGoodSlopeTo) return 1.0;
  return std::max(0.0, (steepest - slope) / (steepest - kGoodSlopeTo));
}

std::string soil_words(const BurrowSite& s, const Siting& siting) {
  if (!s.soil_m) return "no rock below, as far as the site says";
  if (*s.soil_m >= siting.dig_depth) {
    return fmt::format("{:.1f} m of soil, as deep as it digs ({:.1f} m)", *s.soil_m,
                       siting.dig_depth);
  }
  return fmt::format("only {:.1f} m of soil where it digs {:.1f} m", *s.soil_m, siting.dig_depth);
}

std::string slope_words(const BurrowSite& s) {
  const double slope = s.slope_deg * geom::kDegree;
  if (slope < kGoodSlopeFrom) return fmt::format("nearly level ({:.0f}°)", s.slope_deg);
  if (slope <= kGoodSlopeTo) return fmt::format("on a slope of {:.0f}° that drains", s.slope_deg);
  return fmt::format("steep ({:.0f}°)", s.slope_deg);
}

}  // namespace

Siting siting_of(const Model& model) {
  Siting s;
  if (model.site.siting) s.weights = *model.site.siting;
  const Species& animal = model.site.species;
  s.dig_depth = animal.dig_depth.value > 0.0 ? animal.dig_depth.value : kLeastReach;
  s.dig_length = std::max(animal.dig_length.value, kLeastReach);
  s.stand_slope = animal.stand_slope.value > 0.0 ? animal.stand_slope.value : geom::kPi / 4;
  return s;
}

double sample(const geom::Raster& raster, Vec2 p, double otherwise) {
  const geom::Grid& g = raster.grid;
  const int i = static_cast<int>(std::lround((p.x - g.x0) / g.cell));
  const int j = static_cast<int>(std::lround((p.y - g.y0) / g.cell));
  if (!g.holds(i, j) || raster.values.empty()) return otherwise;
  const float v = raster.at(i, j);
  return std::isnan(v) ? otherwise : v;
}

BurrowSite measure(const Model& model, const shade::Day& day, const water::Result& water,
                   const Siting& siting, Vec2 p) {
  BurrowSite s;
  s.at = p;
  s.shade_11_15 = sample(day.midday_shade_share, p, 0.0);
  s.soil_m = soil_depth(model, p);
  const double slope = slope_at(model.ground, p);
  s.slope_deg = slope / geom::kDegree;
  s.ponding_m = sample(water.pond_depth, p, 0.0);
  s.fence_m = distance_to_edges(model.outline, p);
  s.shade_score = s.shade_11_15;
  s.soil_score = s.soil_m ? std::clamp(*s.soil_m / siting.dig_depth, 0.0, 1.0) : 1.0;
  s.slope_score = slope_score(slope, siting.stand_slope);
  s.ponding_score = std::clamp(1.0 - s.ponding_m / kWetDepth, 0.0, 1.0);
  s.fence_score = std::min(1.0, s.fence_m / siting.dig_length);
  const SitingWeights& w = siting.weights;
  const double all = w.shade + w.soil + w.slope + w.ponding + w.fence;
  if (all > 0.0) {
    s.score = (w.shade * s.shade_score + w.soil * s.soil_score + w.slope * s.slope_score +
               w.ponding * s.ponding_score + w.fence * s.fence_score) /
              all;
  }
  return s;
}

std::vector<std::string> reasons(const BurrowSite& s, const Siting& siting) {
  std::vector<std::string> words;
  words.push_back(fmt::format("in shade for {:.0f} % of 11–15 h", 100 * s.shade_11_15));
  words.push_back(soil_words(s, siting));
  words.push_back(slope_words(s));
  words.push_back(s.ponding_m > 0.0
                      ? fmt::format("rain stands {:.0f} cm deep", std::ceil(100 * s.ponding_m))
                      : std::string("rain does not stand"));
  words.push_back(s.fence_m >= siting.dig_length
                      ? fmt::format("{:.1f} m from the fence, beyond a tunnel of {:.1f} m",
                                    s.fence_m, siting.dig_length)
                      : fmt::format("{:.1f} m from the fence, within a tunnel of {:.1f} m",
                                    s.fence_m, siting.dig_length));
  return words;
}

}  // namespace hummock::burrows
