#include "engine/dig/wider_ground.h"

#include <algorithm>
#include <cmath>

#include "engine/brief/asked.h"
#include "engine/ground/ground.h"
#include "engine/site/doubtful.h"

namespace hummock::dig {

namespace {

// The site with its margin widened by whole cells.
Site widened(const Model& model, int cells) {
  Site site = model.site;
  const double cell = site.ground.cell;
  site.ground.margin = std::max(site.ground.margin, cell) + cells * cell;
  site.accept = doubt_ids();  // asked once, of the yard's own ground
  for (Water& water : site.waters) {
    if (water.depth) water.level.reset();  // the model has filled it in
  }
  return site;
}

template <class Each>
void for_common_nodes(const geom::Grid& inner, int cells, const Each& each) {
  for (int j = 0; j < inner.ny; ++j) {
    for (int i = 0; i < inner.nx; ++i) each(i, j, i + cells, j + cells);
  }
}

void keep_what_is_modelled(const geom::Heightfield& inner, int cells, geom::Heightfield& outer) {
  for_common_nodes(inner.grid, cells,
                   [&](int i, int j, int u, int v) { outer.at(u, v) = inner.at(i, j); });
}

// What ground was lost at the fence: the model does not tell, but its ground does.
double scour_of(const Model& model, int cells, const geom::Heightfield& built) {
  constexpr double kNone = 1e-9;  // m
  double scour = 0.0;
  for_common_nodes(model.ground.grid, cells, [&](int i, int j, int u, int v) {
    scour = std::max(scour, built.at(u, v) + model.snow - model.ground.at(i, j));
  });
  return scour > kNone ? scour : 0.0;
}

// Panels stand on the ground as it was built, at one post at least; the survey need not be read
// again where one still does.
bool may_have_lost(const Model& model) {
  constexpr double kOnGround = 1e-9;  // m
  return std::all_of(model.panels.begin(), model.panels.end(), [&](const Panel& p) {
    const double a = p.foot_a - (p.ground_a - model.snow);
    const double b = p.foot_b - (p.ground_b - model.snow);
    return p.gate >= 0 || std::min(a, b) > kOnGround;
  });
}

}  // namespace

double reach_that_counts(const Model& model) {
  const Species& animal = model.site.species;
  double reach = animal.dig_depth.value > 0.0 ? animal.dig_length.value : 0.0;
  return most_asked(model.site, "dig.least_length_m", reach);
}

std::optional<geom::Heightfield> before_loss(const Model& model, const geom::Grid& grid) {
  if (!may_have_lost(model)) return std::nullopt;
  const int cells = (grid.nx - model.ground.grid.nx) / 2;
  ground::Built built = ground::build(widened(model, cells), model.origin);
  if (built.shaped.grid != grid || scour_of(model, cells, built.shaped) <= 0.0) {
    return std::nullopt;
  }
  return std::move(built.shaped);
}

std::optional<Model> on_wider_ground(const Model& model) {
  const double cell = model.site.ground.cell;
  const double short_by = reach_that_counts(model) - std::max(model.site.ground.margin, cell);
  if (short_by <= 1e-9) return std::nullopt;
  const int cells = static_cast<int>(std::ceil(short_by / cell));
  ground::Built built = ground::build(widened(model, cells), model.origin);
  ground::lay_allowances(built.shaped, model.outline, model.snow,
                         scour_of(model, cells, built.shaped));
  keep_what_is_modelled(model.ground, cells, built.shaped);
  Model wide = model;
  wide.ground = std::move(built.shaped);
  if (!model.surveyed.z.empty()) {
    keep_what_is_modelled(model.surveyed, cells, built.surveyed);
    wide.surveyed = std::move(built.surveyed);
  }
  return wide;
}

}  // namespace hummock::dig
