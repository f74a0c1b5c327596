#include "engine/sight/sight.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>

#include "engine/sight/eye_ground.h"
#include "engine/sight/hidden_places.h"
#include "engine/sight/land.h"
#include "engine/sight/screens.h"
#include "engine/sight/sight_lines.h"
#include "engine/sight/usable_nodes.h"
#include "engine/sight/viewing_eyes.h"
#include "engine/site/guest_lines.h"

namespace hummock::sight {
namespace {

struct Look {
  const Model& model;
  const SightLines& lines;
  const std::vector<std::uint8_t>& usable;
  int stride = 1;
  double seen_at = 0.1;
  double tall = 0.0;            // m, the animal's eyes
  const Land* land = nullptr;   // judges for eyes beyond the modelled ground
  EyeGround* ground = nullptr;  // for the others
};

struct Eye {
  Vec3 at;
  std::shared_ptr<const HiddenByGround> hidden;  // nothing beyond the modelled ground
};

// Targets of one row, asked sixteen at a time.
class RowOfTargets {
 public:
  RowOfTargets(const Look& look, const Eye& eye, std::vector<std::uint8_t>& seen)
      : look_(look), eye_(eye), seen_(seen) {}
  void add(std::size_t node, Vec3 target) {
    node_[static_cast<std::size_t>(count_)] = node;
    target_[static_cast<std::size_t>(count_)] = target;
    if (++count_ == 16) flush();
  }
  void flush() {
    if (count_ == 0) return;
    const std::uint32_t solid = look_.lines.blocked(eye_.at, target_, count_);
    for (int k = 0; k < count_; ++k) {
      const auto n = static_cast<std::size_t>(k);
      if ((solid >> static_cast<unsigned>(k) & 1U) == 0 && free(target_[n])) seen_[node_[n]] = 1;
    }
    count_ = 0;
  }

 private:
  bool free(Vec3 target) const {
    if (!eye_.hidden && look_.land->hides(eye_.at, target)) return false;
    return !look_.lines.has_translucent() ||
           look_.lines.translucent_share(eye_.at, target, look_.seen_at) >= look_.seen_at;
  }

  const Look& look_;
  const Eye& eye_;
  std::vector<std::uint8_t>& seen_;
  std::array<std::size_t, 16> node_{};
  std::array<Vec3, 16> target_{};
  int count_ = 0;
};

// Bit k: is node i + k of row j usable, seen by no eye before, and not hidden by the ground?
unsigned to_look_at(const Look& look, const Eye& eye, int i, int j,
                    const std::vector<std::uint8_t>& seen) {
  const geom::Grid& g = look.model.ground.grid;
  const std::size_t n = g.index(i, j);
  unsigned asked = 0;
  if (i + 8 <= g.nx) {
    asked = bytes_set(look.usable.data() + n) & ~bytes_set(seen.data() + n);
  } else {
    for (unsigned k = 0; i + static_cast<int>(k) < g.nx; ++k)
      if (look.usable[n + k] != 0 && seen[n + k] == 0) asked |= 1U << k;
  }
  return eye.hidden ? asked & ~eye.hidden->eight(i, j) : asked;
}

// Marks the nodes of one row that this eye sees and no eye before it did.
void look_along(const Look& look, const Window& window, const Eye& eye, int j,
                std::vector<std::uint8_t>& seen) {
  const geom::Grid& g = look.model.ground.grid;
  RowOfTargets row(look, eye, seen);
  for (int first = 0; first < g.nx; first += 8)
    for (unsigned asked = to_look_at(look, eye, first, j, seen); asked != 0; asked &= asked - 1) {
      const int i = first + std::countr_zero(asked);
      const std::size_t n = g.index(i, j);
      const Vec3 target = at_height(target_place(look.model, g.node(i, j), look.usable[n]),
                                    look.model.ground.z[n] + look.tall);
      if (through(window, look.model.ground, eye.at, target)) row.add(n, target);
    }
  row.flush();
}

// Marks what these eyes see of all nodes. A few eyes at a time, so that the threads wait for each
// other seldom; of each row one eye after the other, as the next need not look at what was seen.
void look_from(const Look& look, const Window& window, std::span<const Vec3> all,
               std::vector<std::uint8_t>& seen, const std::function<void(std::size_t)>& before) {
  constexpr std::size_t kTogether = 8;
  const int rows = (look.model.ground.grid.ny + look.stride - 1) / look.stride;
  for (std::size_t first = 0; first < all.size(); first += kTogether) {
    before(first);
    const auto at = all.subspan(first, std::min(kTogether, all.size() - first));
    const auto hidden = look.ground->from(at);
    std::vector<Eye> eyes;
    for (std::size_t k = 0; k < at.size(); ++k) eyes.push_back({at[k], hidden[k]});
    tbb::parallel_for(0, rows, [&](int r) {
      for (const Eye& eye : eyes) look_along(look, window, eye, r * look.stride, seen);
    });
  }
}

// Eyes between the eyes, until they show little more (sight.h).
void look_between(const Look& look, const Viewpoint& view, const Progress& progress, double share,
                  std::vector<std::uint8_t>& seen) {
  const auto marked = [](const std::vector<std::uint8_t>& nodes) {
    return static_cast<double>(nodes.size()) -
           static_cast<double>(std::count(nodes.begin(), nodes.end(), 0));
  };
  const double little = kSettled * marked(look.usable);
  for (int halvings = 0; gap_after(view, halvings) > kTwoEyes; ++halvings) {
    const double before = marked(seen);
    look_from(look, view.window, eyes_between(*look.land, view, halvings), seen,
              [&](std::size_t) { progress.step("sight", share); });
    if (marked(seen) - before < little) return;
  }
}

// Adds to `seen` what this viewing place sees.
void see_from(const Look& look, const Viewpoint& view, const Progress& progress, double from,
              double to, std::vector<std::uint8_t>& seen) {
  look_from(look, view.window, view.eyes, seen, [&](std::size_t k) {
    progress.step("sight", from + (to - from) * static_cast<double>(k) /
                                      static_cast<double>(view.eyes.size()));
  });
  look_between(look, view, progress, to, seen);
}

// The sampling grid: every stride-th node.
geom::Grid thinned(const geom::Grid& g, int stride) {
  return {g.x0, g.y0, g.cell * stride, (g.nx - 1) / stride + 1, (g.ny - 1) / stride + 1};
}

template <class Value, class Convert>
std::vector<Value> thinned(const geom::Grid& g, int stride, const Convert& at) {
  std::vector<Value> out;
  for (int j = 0; j < g.ny; j += stride)
    for (int i = 0; i < g.nx; i += stride) out.push_back(at(g.index(i, j)));
  return out;
}

int stride_for(const Model& model, const Settings& settings) {
  if (!(settings.eye_spacing > 0.0) || !(settings.seen_at > 0.0) || !(settings.cell >= 0.0))
    throw std::invalid_argument("sight: settings out of range");
  return std::max(1, static_cast<int>(std::lround(settings.cell / model.ground.grid.cell)));
}

// What each viewing place sees, one a node. Leaves that fall hide nothing new: `seen` is added to.
using SeenBy = std::vector<std::vector<std::uint8_t>>;
void see_all(const Look& look, const std::vector<Viewpoint>& views, const Progress& progress,
             double from, double to, SeenBy& seen) {
  seen.resize(views.size(), std::vector<std::uint8_t>(look.usable.size(), 0));
  const auto part = [&](std::size_t k) {
    return from + (to - from) * static_cast<double>(k) / static_cast<double>(views.size());
  };
  for (std::size_t k = 0; k < views.size(); ++k)
    see_from(look, views[k], progress, part(k), part(k + 1), seen[k]);
}

// How many viewing places see each node.
std::vector<int> count_views(const SeenBy& seen, std::size_t nodes) {
  std::vector<int> by(nodes, 0);
  for (const auto& view : seen)
    for (std::size_t n = 0; n < nodes; ++n) by[n] += view[n];
  return by;
}

void look_for_walls(const SightLines& lines, const Viewpoint& view, ViewRow& row) {
  for (const Vec3 eye : view.eyes) {
    const int thing = lines.inside(eye);
    if (thing < 0) continue;
    ++row.eyes_inside;
    if (row.inside.empty()) row.inside = lines.name(thing);
  }
  if (row.eyes_inside == 0) return;
  const bool all = row.eyes_inside == row.eyes;
  row.note = (all ? "its eyes" : "some of its eyes") + std::string(" stand inside '") + row.inside +
             "': what they see is not known";
}

std::vector<ViewRow> view_rows(const SightLines& lines, const std::vector<Viewpoint>& views,
                               const SeenBy& seen, double usable_count) {
  std::vector<ViewRow> rows;
  for (std::size_t k = 0; k < views.size(); ++k) {
    ViewRow row;
    row.name = views[k].name;
    row.eyes = static_cast<int>(views[k].eyes.size());
    const auto count = static_cast<double>(std::count(seen[k].begin(), seen[k].end(), 1));
    if (usable_count > 0.0) row.seen_share = count / usable_count;
    if (!views[k].sees_through) row.note = "its fence passes no sight: one sees only over it";
    look_for_walls(lines, views[k], row);
    rows.push_back(row);
  }
  return rows;
}

// Usable nodes that nobody sees.
std::vector<std::uint8_t> unseen(const std::vector<std::uint8_t>& usable,
                                 const std::vector<int>& by) {
  std::vector<std::uint8_t> hidden(usable.size(), 0);
  for (std::size_t n = 0; n < usable.size(); ++n) hidden[n] = usable[n] != 0 && by[n] == 0;
  return hidden;
}

}  // namespace

bool anyone_looks(const Site& site) {
  return !guest_lines(site).empty();
}

namespace {

// The lists and the map of a result: what is hidden, and who sees what.
void set_hidden(const Model& model, const Look& look, const std::vector<int>& by,
                const std::vector<std::uint8_t>& hidden, Result& r) {
  const geom::Grid& g = model.ground.grid;
  const geom::Grid sampled = thinned(g, look.stride);
  const auto& body = model.site.species.body.value;
  r.hidden = hidden_places(
      sampled, thinned<std::uint8_t>(g, look.stride, [&](std::size_t n) { return hidden[n]; }),
      body[0], body[1]);
  r.seen_by = geom::Raster(sampled);
  r.seen_by.values = thinned<float>(g, look.stride, [&](std::size_t n) {
    return look.usable[n] != 0 ? static_cast<float>(by[n]) : geom::Raster::kNone;
  });
}

}  // namespace

Result analyse(const Model& model, const Settings& settings, const Progress& progress) {
  Result r;
  progress.step("sight", 0.0);
  const int stride = stride_for(model, settings);
  Land land(model);
  const std::vector<Viewpoint> views = viewpoints(model, land, settings.eye_spacing);
  for (const Viewpoint& view : views)
    for (const Vec3 eye : view.eyes) land.look_from(eye);
  const SightLines lines(model, settings.bare);
  const std::vector<std::uint8_t> usable = usable_nodes(model, stride);
  EyeGround ground(model.ground, usable, eyes_up(model));
  const Look look{model, lines, usable, stride, settings.seen_at, eyes_up(model), &land, &ground};
  const auto count = static_cast<double>(usable.size()) -
                     static_cast<double>(std::count(usable.begin(), usable.end(), kNotUsable));
  const double area = model.ground.grid.cell * model.ground.grid.cell * stride * stride;
  const auto area_of = [&](const std::vector<std::uint8_t>& nodes) {
    return static_cast<double>(std::count(nodes.begin(), nodes.end(), 1)) * area;
  };
  SeenBy seen;
  see_all(look, views, progress, 0.0, 0.8, seen);
  std::vector<int> by = count_views(seen, usable.size());
  std::vector<std::uint8_t> hidden = unseen(usable, by);
  r.usable_area_m2 = count * area;
  r.unseen_area_m2 = area_of(hidden);
  r.seen_share = count > 0.0 ? 1.0 - r.unseen_area_m2 / r.usable_area_m2 : 0.0;
  r.guest_boundary_share = guest_share(model);
  r.views = view_rows(lines, views, seen, count);
  if (settings.screens)
    r.screens =
        screens(model, lines, ground, views, usable, hidden, area, settings.seen_at, progress);
  const bool falls = !settings.bare && lines.seasonal();
  if (falls) r.unseen_in_leaf_m2 = r.unseen_area_m2;
  const double narrowest = kNarrow * model.ground.grid.cell * stride;
  if (!falls && !any_narrow(model, narrowest)) {
    r.dens = den_pairs(model, lines, settings.seen_at);
  } else {
    const SightLines least(model, settings.bare || falls, narrowest);
    see_all({model, least, usable, stride, look.seen_at, look.tall, look.land, look.ground}, views,
            progress, 0.9, 1.0, seen);
    by = count_views(seen, usable.size());
    hidden = unseen(usable, by);
    r.unseen_area_m2 = area_of(hidden);
    r.dens = den_pairs(model, least, settings.seen_at);
  }
  set_hidden(model, look, by, hidden, r);
  progress.step("sight", 1.0);
  return r;
}

}  // namespace hummock::sight
