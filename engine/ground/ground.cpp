#include "engine/ground/ground.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/ground/basins.h"
#include "engine/ground/form_detail.h"
#include "engine/ground/forms.h"
#include "engine/ground/point_survey.h"
#include "engine/ground/raster_survey.h"
#include "engine/site/doubtful.h"

namespace hummock::ground {
namespace {

constexpr double kMostNodes = 64e6;
constexpr double kScourReach = 1.0;  // m from the fence line; common practice, no source

double nodes_over(const geom::Box2& area, double cell) {
  return ((area.hi.x - area.lo.x) / cell + 1) * ((area.hi.y - area.lo.y) / cell + 1);
}

void refuse_too_large(const Site& site, const geom::Box2& area) {
  const double cell = site.ground.cell, nodes = nodes_over(area, cell);
  if (nodes <= kMostNodes) return;
  Where where = site.ground.where;
  where.key = "ground.cell";
  const double least = cell * std::sqrt(nodes / kMostNodes);
  throw InputError(
      where, fmt::format("{:g} m, which makes {:.0f} million nodes", cell, nodes / 1e6),
      fmt::format("at most 64 million nodes: a cell of about {:.2g} m or more", least));
}

geom::Heightfield survey(const Site& site, Vec2 origin, const geom::Box2& area,
                         const Progress& progress, SurveyRecord& record) {
  const Ground& g = site.ground;
  const Polygon& outline = site.boundary.outline;
  if (!g.raster.empty()) {
    return raster_survey(g, outline, origin, area, record, progress, site.accept, site.place);
  }
  if (!g.points.empty()) {
    return point_survey(g, outline, origin, area, record, site.accept);
  }
  return geom::level_ground(area, g.cell, g.level.value_or(0.0));
}

// A form that begins near the yard and goes on beyond the modelled ground: what lies there is not
// seen by anything.
void note_cut_forms(const Site& site, const geom::Box2& area, SurveyRecord& record) {
  int n = 0;
  std::string cut;
  for (const GroundForm& form : site.ground.forms) {
    ++n;
    const bool round = form.kind == FormKind::mound || form.kind == FormKind::hollow;
    if (!round && form.kind != FormKind::ridge) continue;
    geom::Box2 reach;
    if (round) reach.add(form.at);
    for (const Vec2 p : form.path) reach.add(p);
    reach.lo = reach.lo - Vec2{form.radius, form.radius};
    reach.hi = reach.hi + Vec2{form.radius, form.radius};
    const bool meets = reach.lo.x < area.hi.x && reach.hi.x > area.lo.x && reach.lo.y < area.hi.y &&
                       reach.hi.y > area.lo.y;
    const bool within = reach.lo.x >= area.lo.x && reach.lo.y >= area.lo.y &&
                        reach.hi.x <= area.hi.x && reach.hi.y <= area.hi.y;
    if (!meets || within) continue;
    record.notes.push_back(fmt::format(
        "ground: form {} is cut by the margin of {:g} m: what of it lies beyond is not modelled", n,
        site.ground.margin));
    cut += (cut.empty() ? "" : ", ") + std::to_string(n);
  }
  if (cut.empty()) return;
  record.unseen.push_back(
      {kFormCut,
       fmt::format("what of form {} lies beyond the margin of {:g} m does not matter", cut,
                   site.ground.margin),
       fmt::format("a margin of {:g} m", site.ground.margin), "a margin round all of it"});
}

}  // namespace

geom::Box2 modelled_area(const Polygon& outline, double cell, double margin) {
  geom::Box2 area = geom::bounds(outline);
  const double wide = std::max(margin, cell);
  area.lo = area.lo - Vec2{wide, wide};
  area.hi = area.hi + Vec2{wide, wide};
  return area;
}

double nodes_of(const Site& site) {
  const double cell = site.ground.cell;
  return nodes_over(modelled_area(site.boundary.outline, cell, site.ground.margin), cell);
}

Built build(const Site& site, Vec2 origin, const Progress& progress) {
  const geom::Box2 area =
      modelled_area(site.boundary.outline, site.ground.cell, site.ground.margin);
  refuse_too_large(site, area);
  Built built;
  SurveyRecord record;
  progress.step("ground: survey", 0.0);
  built.surveyed = survey(site, origin, area, progress, record);
  built.shaped = built.surveyed;
  progress.step("ground: forms", 0.5);
  for (const GroundForm& form : site.ground.forms) apply_form(built.shaped, form);
  note_cut_forms(site, area, record);
  for (auto&& list :
       {unseen_forms(site, built.shaped.grid, origin), unseen_strips(site, built.shaped.grid),
        unseen_basins(site, built.shaped.grid)}) {
    record.unseen.insert(record.unseen.end(), list.begin(), list.end());
  }
  built.guessed = std::move(record.guessed);
  built.notes = std::move(record.notes);
  built.unseen = std::move(record.unseen);
  built.read = std::move(record.read);
  progress.step("ground: basins", 0.9);
  for (const Water& water : site.waters) {
    built.water_levels.push_back(water.level ? *water.level
                                             : lowest_rim(built.shaped, water.outline));
    dig_basin(built.shaped, water);
  }
  return built;
}

FarGround ground_over(const Site& site, Vec2 origin, geom::Box2 area) {
  constexpr double kMostCells = 400.0;  // cells
  const geom::Box2 modelled =
      modelled_area(site.boundary.outline, site.ground.cell, site.ground.margin);
  area.add(modelled.lo);
  area.add(modelled.hi);
  const double across = std::max(area.hi.x - area.lo.x, area.hi.y - area.lo.y);
  Site wide = site;
  wide.ground.cell = std::max(site.ground.cell, across / kMostCells);
  wide.boundary.outline.clear();  // no place where a height is needed
  wide.accept = doubt_ids();      // asked once, of the yard's own ground
  area.lo = area.lo - Vec2{wide.ground.cell, wide.ground.cell};
  area.hi = area.hi + Vec2{wide.ground.cell, wide.ground.cell};
  FarGround out;
  SurveyRecord record;  // of which the yard's own ground has told, but for the notes
  out.ground = survey(wide, origin, area, {}, record);
  out.notes = std::move(record.notes);
  out.guessed = std::move(record.guessed);
  for (const GroundForm& form : site.ground.forms)
    if (form.kind != FormKind::smooth) apply_form(out.ground, form);
  return out;
}

std::optional<FarGround> far_ground(const Site& site, Vec2 origin) {
  geom::Box2 area = modelled_area(site.boundary.outline, site.ground.cell, site.ground.margin);
  const geom::Box2 modelled = area;
  for (const Surrounding& thing : site.surroundings)
    for (const Vec2 p : thing.outline) area.add(p);
  if (area.lo == modelled.lo && area.hi == modelled.hi) return std::nullopt;
  return ground_over(site, origin, area);
}

void lay_allowances(geom::Heightfield& ground, const Polygon& outline, double snow, double scour) {
  if (snow == 0.0 && scour == 0.0) return;
  const geom::Grid& g = ground.grid;
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      double& z = ground.at(i, j);
      z += snow;
      if (scour > 0.0 && geom::distance_to_edges(outline, g.node(i, j)) <= kScourReach) z -= scour;
    }
  }
}

}  // namespace hummock::ground
