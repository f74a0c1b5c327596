#include "engine/ground/beyond.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/forms.h"
#include "engine/ground/ground.h"
#include "engine/ground/raster_file.h"
#include "engine/ground/raster_survey.h"
#include "engine/ground/survey_record.h"
#include "engine/site/doubtful.h"

namespace hummock::ground {
namespace {

geom::Box2 common(const geom::Box2& a, const geom::Box2& b) {
  return {{std::max(a.lo.x, b.lo.x), std::max(a.lo.y, b.lo.y)},
          {std::min(a.hi.x, b.hi.x), std::min(a.hi.y, b.hi.y)}};
}

double longer_side(const geom::Box2& b) {
  return std::max(b.hi.x - b.lo.x, b.hi.y - b.lo.y);
}

bool reaches_beyond(const geom::Box2& area, const geom::Box2& modelled, double by) {
  return area.lo.x < modelled.lo.x - by || area.lo.y < modelled.lo.y - by ||
         area.hi.x > modelled.hi.x + by || area.hi.y > modelled.hi.y + by;
}

// The site's coordinates for a box of the file's.
geom::Box2 local(const geom::Box2& box, Vec2 origin) {
  return {box.lo - origin, box.hi - origin};
}

}  // namespace

std::shared_ptr<const geom::Heightfield> beyond(const Site& site, Vec2 origin) {
  if (site.ground.raster.empty() || !site.place) return nullptr;
  const geom::Box2 modelled =
      modelled_area(site.boundary.outline, site.ground.cell, site.ground.margin);
  Where where = site.ground.where;
  where.key = "ground.raster";
  // What is said of the file was said of the yard's own ground.
  SurveyRecord said_before;
  const geom::Box2 in_file{modelled.lo + origin, modelled.hi + origin};
  const Pixels near = read_pixels(site.ground.raster, in_file, where, said_before.notes);
  const double most_side = std::sqrt(kMostPixelsRead) * near.pixel_size;
  const double reach = std::min(kBeyond, 0.5 * (most_side - longer_side(modelled)));
  const geom::Box2 area = common(geom::widened(modelled, reach), local(near.file_box, origin));
  Ground wide = site.ground;
  wide.cell = std::max({site.ground.cell, near.pixel_size, longer_side(area) / kMostAcross});
  if (reach <= 0.0 || !reaches_beyond(area, modelled, wide.cell)) return nullptr;
  auto out = std::make_shared<geom::Heightfield>(
      raster_survey(wide, {}, origin, area, said_before, {}, doubt_ids()));
  for (const GroundForm& form : site.ground.forms)
    if (form.kind != FormKind::smooth) apply_form(*out, form);
  return out;
}

}  // namespace hummock::ground
