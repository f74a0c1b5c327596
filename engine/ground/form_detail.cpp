#include "engine/ground/form_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/ground/basins.h"
#include "engine/ground/forms.h"
#include "engine/ground/gaps.h"
#include "engine/ground/lost_detail.h"

namespace hummock::ground {
namespace {

bool heaped(const GroundForm& form) {
  return form.kind == FormKind::mound || form.kind == FormKind::hollow ||
         form.kind == FormKind::ridge;
}

geom::Box2 reach_of(const GroundForm& form) {
  geom::Box2 box;
  if (form.kind != FormKind::ridge) box.add(form.at);
  for (const Vec2 p : form.path) box.add(p);
  box.lo = box.lo - Vec2{form.radius, form.radius};
  box.hi = box.hi + Vec2{form.radius, form.radius};
  return box;
}

// The part of the ground's grid about the form, level, at the same nodes.
geom::Heightfield patch_of(const geom::Grid& grid, const geom::Box2& box) {
  geom::Heightfield patch;
  geom::Grid& g = patch.grid;
  const auto first = [&](double v, double from, int n) {
    return std::clamp(static_cast<int>(std::floor((v - from) / grid.cell)) - 1, 0, n - 2);
  };
  const auto last = [&](double v, double from, int n) {
    return std::clamp(static_cast<int>(std::ceil((v - from) / grid.cell)) + 1, 1, n - 1);
  };
  const int i0 = first(box.lo.x, grid.x0, grid.nx), i1 = last(box.hi.x, grid.x0, grid.nx);
  const int j0 = first(box.lo.y, grid.y0, grid.ny), j1 = last(box.hi.y, grid.y0, grid.ny);
  g = grid;
  g.x0 = grid.node(i0, j0).x;
  g.y0 = grid.node(i0, j0).y;
  g.nx = std::max(i1, i0 + 1) - i0 + 1;
  g.ny = std::max(j1, j0 + 1) - j0 + 1;
  patch.z.assign(static_cast<std::size_t>(g.nx) * static_cast<std::size_t>(g.ny), 0.0);
  return patch;
}

// Its closed form at a place.
double height_of(const GroundForm& form, Vec2 p) {
  std::vector<Vec2> path = form.path;
  if (form.kind != FormKind::ridge) path = {form.at};
  const double height = form.kind == FormKind::hollow ? -form.height : form.height;
  return height * raised_cosine(distance_to_path(path, p), form.radius);
}

std::optional<Unseen> lost_of(const GroundForm& form, int number, const Site& site,
                              const geom::Grid& grid, Vec2 origin) {
  constexpr int kAcross = 64;  // places looked at across it; numeric, a setting
  const geom::Box2 box = reach_of(form);
  geom::Heightfield laid = patch_of(grid, box);
  apply_form(laid, form);
  LostDetail lost(laid, site.boundary.outline);
  for (int k = 0; k <= kAcross; ++k) {
    for (int i = 0; i <= kAcross; ++i) {
      const Vec2 p{box.lo.x + (box.hi.x - box.lo.x) * i / kAcross,
                   box.lo.y + (box.hi.y - box.lo.y) * k / kAcross};
      lost.compare(p, height_of(form, p));
    }
  }
  if (!lost.any()) return std::nullopt;
  return Unseen{kFormDetail,
                fmt::format("what a cell of {:g} m leaves out of form {} does not matter (up to "
                            "{:.2f} m of height, at {})",
                            grid.cell, number, lost.worst(), place_words(lost.where() + origin)),
                fmt::format("a cell of {:g} m", grid.cell), "a cell finer than the form"};
}

// The narrowest strip between two outlines that do not touch, m.
double strip_between(const Polygon& a, const Polygon& b) {
  double least = 1e300;
  for (const Vec2 p : a) least = std::min(least, geom::distance_to_edges(b, p));
  for (const Vec2 p : b) least = std::min(least, geom::distance_to_edges(a, p));
  return least;
}

bool is_basin(const Water& water, const Polygon& yard) {
  return water.depth.value_or(0.0) > 0.0 &&
         std::any_of(water.outline.begin(), water.outline.end(),
                     [&](Vec2 p) { return geom::contains(yard, p); });
}

}  // namespace

namespace {

// Laid over a cell at least, however narrow it is drawn.
std::optional<Unseen> face_of(const GroundForm& form, int number, const geom::Grid& grid) {
  if (form.kind != FormKind::bench || form.batter >= grid.cell) return std::nullopt;
  return Unseen{
      kFormFace,
      fmt::format("the face of form {}, drawn {:g} m wide, is no steeper than over a cell "
                  "of {:g} m",
                  number, form.batter, grid.cell),
      fmt::format("a cell of {:g} m", grid.cell), "a cell no wider than the face"};
}

}  // namespace

std::vector<Unseen> unseen_forms(const Site& site, const geom::Grid& grid, Vec2 origin) {
  std::vector<Unseen> list;
  int number = 0;
  for (const GroundForm& form : site.ground.forms) {
    ++number;
    if (auto face = face_of(form, number, grid)) list.push_back(std::move(*face));
    if (!heaped(form)) continue;
    if (auto lost = lost_of(form, number, site, grid, origin)) list.push_back(std::move(*lost));
  }
  return list;
}

std::vector<Unseen> unseen_strips(const Site& site, const geom::Grid& grid) {
  constexpr double kTouch = 1e-6;  // m
  std::vector<Unseen> list;
  for (const Water& water : site.waters) {
    if (!is_basin(water, site.boundary.outline)) continue;
    const double strip = strip_between(water.outline, site.boundary.outline);
    if (strip <= kTouch || strip >= grid.cell) continue;
    list.push_back({kNarrowStrip,
                    fmt::format("the strip of {:.2f} m between '{}' and the boundary, finer than "
                                "the cell of {:g} m, is no ledge to walk on",
                                strip, water.name, grid.cell),
                    fmt::format("a cell of {:g} m", grid.cell), "a cell finer than the strip"});
  }
  return list;
}

std::vector<Unseen> unseen_basins(const Site& site, const geom::Grid& grid) {
  std::vector<Unseen> list;
  for (const Water& water : site.waters) {
    // A careful end of how far it digs may be longer: half as far again, as of an unsure leap.
    const double far = 1.5 * site.species.dig_length.value;
    const bool near = strip_between(water.outline, site.boundary.outline) <= far;
    if (!near || !cut_coarsely(water, grid.cell)) continue;
    list.push_back({kBasinDetail,
                    fmt::format("the side of '{}', laid over a cell of {:g} m, lets it dig no "
                                "shorter way than that",
                                water.name, grid.cell),
                    fmt::format("a cell of {:g} m", grid.cell),
                    "a cell finer than the basin's sides"});
  }
  return list;
}

}  // namespace hummock::ground
