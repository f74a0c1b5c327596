#include "engine/ground/raster_survey.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "engine/ground/gaps.h"
#include "engine/ground/lost_detail.h"
#include "engine/ground/projection_scale.h"
#include "engine/ground/raster_file.h"
#include "engine/site/doubtful.h"

namespace hummock::ground {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

double pixel(const Pixels& p, int c, int r) {
  return p.z[static_cast<std::size_t>(r) * static_cast<std::size_t>(p.cols) +
             static_cast<std::size_t>(c)];
}

// A pixel and its share; pixels with no share may be missing.
void add_share(const Pixels& p, int c, int r, double share, double& sum) {
  if (share != 0.0) sum += share * pixel(p, c, r);
}

// Bilinear between pixel centres; NaN outside the raster or beside a gap.
double sample(const Pixels& p, Vec2 at) {
  constexpr double kRim = 0.5 + 1e-9;
  double c = p.to_col[0] + p.to_col[1] * at.x + p.to_col[2] * at.y;
  double r = p.to_row[0] + p.to_row[1] * at.x + p.to_row[2] * at.y;
  if (c < -kRim || r < -kRim || c > p.file_cols - 1 + kRim || r > p.file_rows - 1 + kRim) {
    return kNone;
  }
  c = std::clamp(c - p.first_col, 0.0, static_cast<double>(p.cols - 1));
  r = std::clamp(r - p.first_row, 0.0, static_cast<double>(p.rows - 1));
  const int c0 = std::min(static_cast<int>(c), std::max(0, p.cols - 2));
  const int r0 = std::min(static_cast<int>(r), std::max(0, p.rows - 2));
  // A sample within a millionth of a pixel of a centre is at the centre.
  const auto snapped = [](double t) {
    return std::abs(t) < 1e-6 ? 0.0 : (std::abs(t - 1.0) < 1e-6 ? 1.0 : t);
  };
  const double u = snapped(c - c0);
  const double v = snapped(r - r0);
  double sum = 0.0;
  add_share(p, c0, r0, (1 - u) * (1 - v), sum);
  add_share(p, c0 + 1, r0, u * (1 - v), sum);
  add_share(p, c0, r0 + 1, (1 - u) * v, sum);
  add_share(p, c0 + 1, r0 + 1, u * v, sum);
  return sum;
}

// Where a pixel's centre is, in the file's coordinates.
Vec2 centre_of(const Pixels& p, int c, int r) {
  const double u = p.first_col + c - p.to_col[0];
  const double v = p.first_row + r - p.to_row[0];
  const double det = p.to_col[1] * p.to_row[2] - p.to_col[2] * p.to_row[1];
  return {(u * p.to_row[2] - v * p.to_col[2]) / det, (v * p.to_col[1] - u * p.to_row[1]) / det};
}

void note_finer(const Ground& ground, const Polygon& outline, Vec2 origin, const Pixels& pixels,
                const geom::Heightfield& laid, SurveyRecord& record) {
  if (outline.empty() || pixels.pixel_size * 2.0 > ground.cell) return;
  LostDetail lost(laid, outline);
  for (int r = 0; r < pixels.rows; ++r) {
    for (int c = 0; c < pixels.cols; ++c) {
      const double z = pixel(pixels, c, r);
      if (!std::isnan(z)) lost.compare(centre_of(pixels, c, r) - origin, z);
    }
  }
  if (lost.any()) record.unseen.push_back(*lost.unseen(origin));
  record.notes.push_back(
      fmt::format("ground: the raster's pixels are {:.3g} m, the site's cell {:.3g} m: "
                  "what is smaller than the cell is sampled, not averaged",
                  pixels.pixel_size, ground.cell));
}

void refuse_doubtful(const Ground& ground, const Pixels& pixels, const Where& where,
                     const std::vector<std::string>& accept) {
  constexpr double kMostStretch = 0.01;
  const std::string name = "'" + ground.raster.filename().string() + "'";
  if (std::abs(pixels.scale - 1.0) > kMostStretch)
    refuse_unless_accepted(accept, "projection-scale", where,
                           fmt::format("{} in {}, whose metre is {:.3f} m on the ground here", name,
                                       pixels.system, 1.0 / pixels.scale),
                           "a projection of the region, true to scale within 1 %");
  if (pixels.pixel_size > kMostCoarse * ground.cell)
    refuse_unless_accepted(accept, "survey-coarse", where,
                           fmt::format("{} with pixels of {:.3g} m under a cell of {:g} m", name,
                                       pixels.pixel_size, ground.cell),
                           fmt::format("pixels of at most {:g} cells", kMostCoarse));
}

std::string name_of(const Ground& ground) {
  return "'" + ground.raster.filename().string() + "'";
}

// The sun is taken from the place, the ground from the survey: both must be the same yard.
void refuse_elsewhere(const Pixels& pixels, const std::string& name, const Place& place,
                      const std::vector<std::string>& accept) {
  constexpr double kMostApart = 1.0;  // degrees, 111 km; common practice, no source
  if (!pixels.place) return;
  const Vec2 told{place.longitude / geom::kDegree, place.latitude / geom::kDegree};
  const double apart = degrees_apart(told, *pixels.place);
  if (apart <= kMostApart) return;
  Where where = place.where;
  where.key = "place.latitude";
  refuse_unless_accepted(
      accept, "place-survey", where,
      fmt::format("latitude {:.5g}, longitude {:.5g}: {:.3g} degrees from where {} ({}) lies",
                  told.y, told.x, apart, name, pixels.system),
      fmt::format("latitude {:.2f} and longitude {:.2f}, those of the survey, within a degree",
                  pixels.place->y, pixels.place->x));
}

}  // namespace

geom::Heightfield raster_survey(const Ground& ground, const Polygon& outline, Vec2 origin,
                                const geom::Box2& area, SurveyRecord& record,
                                const Progress& progress, const std::vector<std::string>& accept,
                                const std::optional<Place>& place) {
  Where where = ground.where;
  where.key = "ground.raster";
  geom::Heightfield result = geom::level_ground(area, ground.cell, kNone);
  const geom::Grid& g = result.grid;
  const geom::Box2 in_file{area.lo + origin, Vec2{g.x_max(), g.y_max()} + origin};
  const Pixels pixels = read_pixels(ground.raster, in_file, where, record.notes, progress);
  record.read.insert(record.read.end(), pixels.read.begin(), pixels.read.end());
  refuse_doubtful(ground, pixels, where, accept);
  if (place) refuse_elsewhere(pixels, name_of(ground), *place, accept);
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) result.at(i, j) = sample(pixels, g.node(i, j) + origin);
  }
  const std::string name = "'" + ground.raster.filename().string() + "'";
  const std::string what = pixels.unusable.empty()
                               ? " without a height"
                               : " without a height (or with " + pixels.unusable + " m)";
  refuse_gaps(
      result, outline, origin, where, name + what,
      "a height from -500 to 9000 m everywhere inside the boundary and one and a half cells "
      "around it");
  note_finer(ground, outline, origin, pixels, result, record);
  fill_margin(result, record);
  return result;
}

}  // namespace hummock::ground
