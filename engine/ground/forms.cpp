#include "engine/ground/forms.h"

#include <cmath>

namespace hummock::ground {

double raised_cosine(double d, double radius) {
  return d < radius ? 0.5 * (1.0 + std::cos(geom::kPi * d / radius)) : 0.0;
}

double distance_to_path(const std::vector<Vec2>& path, Vec2 p) {
  double least = geom::distance(path.front(), p);
  for (std::size_t k = 0; k + 1 < path.size(); ++k) {
    least = std::min(least, geom::distance_to_segment(p, path[k], path[k + 1]));
  }
  return least;
}

namespace {

using geom::Grid;
using geom::Heightfield;

struct Nodes {
  int i0 = 0, i1 = 0, j0 = 0, j1 = 0;  // half-open
};

Nodes nodes_in(const Grid& g, const geom::Box2& box) {
  const auto from = [](double f, int n) {
    return static_cast<int>(std::clamp(std::floor(f), 0.0, static_cast<double>(n)));
  };
  return {from((box.lo.x - g.x0) / g.cell, g.nx), from((box.hi.x - g.x0) / g.cell + 2.0, g.nx),
          from((box.lo.y - g.y0) / g.cell, g.ny), from((box.hi.y - g.y0) / g.cell + 2.0, g.ny)};
}

template <class Use>
void for_each_node(const Grid& g, const geom::Box2& box, const Use& use) {
  const Nodes n = nodes_in(g, box);
  for (int j = n.j0; j < n.j1; ++j) {
    for (int i = n.i0; i < n.i1; ++i) use(i, j, g.node(i, j));
  }
}

geom::Box2 whole(const Grid& g) {
  return {{g.x0, g.y0}, {g.x_max(), g.y_max()}};
}

void heap_along(Heightfield& ground, const std::vector<Vec2>& path, double radius, double height) {
  geom::Box2 box;
  for (Vec2 p : path) box.add(p);
  for_each_node(ground.grid, geom::widened(box, radius), [&](int i, int j, Vec2 p) {
    ground.at(i, j) += height * raised_cosine(distance_to_path(path, p), radius);
  });
}

void level_bench(Heightfield& ground, const GroundForm& form) {
  const geom::Box2 box = geom::widened(geom::bounds(form.outline), form.batter);
  for_each_node(ground.grid, box, [&](int i, int j, Vec2 p) {
    double& z = ground.at(i, j);
    if (geom::contains(form.outline, p)) {
      z = form.level;
    } else if (form.batter > 0.0) {
      const double t = geom::distance_to_edges(form.outline, p) / form.batter;
      if (t < 1.0) z = form.level + (z - form.level) * t;
    }
  });
}

bool takes(const GroundForm& form, Vec2 p) {
  return form.outline.empty() || geom::contains(form.outline, p);
}

geom::Box2 reach(const GroundForm& form, const Grid& g) {
  return form.outline.empty() ? whole(g) : geom::bounds(form.outline);
}

void tilt(Heightfield& ground, const GroundForm& form) {
  const Vec2 down{std::sin(form.downhill), std::cos(form.downhill)};
  const double fall = std::tan(form.angle);
  for_each_node(ground.grid, reach(form, ground.grid), [&](int i, int j, Vec2 p) {
    if (takes(form, p)) ground.at(i, j) -= fall * geom::dot(p - form.at, down);
  });
}

// Sums along each row, so that the sum of a run of nodes is one difference.
std::vector<double> row_sums(const Heightfield& ground) {
  const Grid& g = ground.grid;
  const std::size_t width = static_cast<std::size_t>(g.nx) + 1;
  std::vector<double> sums(width * static_cast<std::size_t>(g.ny), 0.0);
  for (int j = 0; j < g.ny; ++j) {
    double* row = sums.data() + width * static_cast<std::size_t>(j);
    for (int i = 0; i < g.nx; ++i) row[i + 1] = row[i] + ground.at(i, j);
  }
  return sums;
}

// Mean over the nodes within r cells of (i, j), which must all lie in the grid.
double disc_mean(const std::vector<double>& sums, const Grid& g, int i, int j, double r) {
  const std::size_t width = static_cast<std::size_t>(g.nx) + 1;
  const int rows = static_cast<int>(std::floor(r));
  double sum = 0.0;
  int count = 0;
  for (int dj = -rows; dj <= rows; ++dj) {
    const int half = static_cast<int>(std::floor(std::sqrt(r * r - static_cast<double>(dj) * dj)));
    const double* row = sums.data() + width * static_cast<std::size_t>(j + dj);
    sum += row[i + half + 1] - row[i - half];
    count += 2 * half + 1;
  }
  return sum / count;
}

void smooth(Heightfield& ground, const GroundForm& form) {
  const Grid& g = ground.grid;
  const std::vector<double> sums = row_sums(ground);
  for_each_node(g, reach(form, g), [&](int i, int j, Vec2 p) {
    if (!takes(form, p)) return;
    const int rim = std::min({i, j, g.nx - 1 - i, g.ny - 1 - j});
    const double r = std::min(form.radius / g.cell, static_cast<double>(rim));
    if (r >= 1.0) ground.at(i, j) = disc_mean(sums, g, i, j, r);
  });
}

}  // namespace

void apply_form(Heightfield& ground, const GroundForm& form) {
  switch (form.kind) {
    case FormKind::mound:
      return heap_along(ground, {form.at}, form.radius, form.height);
    case FormKind::hollow:
      return heap_along(ground, {form.at}, form.radius, -form.height);
    case FormKind::ridge:
      return heap_along(ground, form.path, form.radius, form.height);
    case FormKind::bench:
      return level_bench(ground, form);
    case FormKind::slope:
      return tilt(ground, form);
    case FormKind::smooth:
      return smooth(ground, form);
  }
}

}  // namespace hummock::ground
