#include "engine/sight/screens.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "engine/sight/usable_nodes.h"
#include "geometry/terrain/viewshed.h"

namespace hummock::sight {
namespace {

constexpr std::size_t kSample = 20000;
const char* const kGroundName = "ground";

// Every m-th hidden node of every m-th row, so that about kSample are left.
std::vector<std::size_t> sample(const geom::Grid& g, const std::vector<std::uint8_t>& hidden,
                                std::size_t& of_all) {
  of_all = static_cast<std::size_t>(std::count(hidden.begin(), hidden.end(), 1));
  const double too_many = static_cast<double>(of_all) / static_cast<double>(kSample);
  const int m = std::max(1, static_cast<int>(std::ceil(std::sqrt(too_many))));
  std::vector<std::size_t> nodes;
  int row = 0;
  for (int j = 0; j < g.ny; ++j) {
    int met = 0;
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t n = g.index(i, j);
      if (hidden[n] == 0) continue;
      if (row % m == 0 && met % m == 0) nodes.push_back(n);
      ++met;
    }
    if (met > 0) ++row;
  }
  return nodes;
}

// Adds to `alone` the things (the ground is the last) without which this line would be free.
void find_alone(const SightLines& lines, bool by_ground, const std::vector<Taken>& taken,
                double seen_at, std::vector<char>& alone) {
  double whole = 1.0;
  int solid = -1, solids = 0;
  for (const Taken& t : taken) {
    if (t.share > 0.0) {
      whole *= t.share;
    } else {
      solid = t.thing;
      ++solids;
    }
  }
  if (by_ground) {
    if (solids == 0 && whole >= seen_at) alone[static_cast<std::size_t>(lines.things())] = 1;
    return;
  }
  if (solids > 1) return;
  if (solids == 1) {
    if (whole >= seen_at) alone[static_cast<std::size_t>(solid)] = 1;
    return;
  }
  for (const Taken& t : taken)
    if (whole / t.share >= seen_at) alone[static_cast<std::size_t>(t.thing)] = 1;
}

bool ground_hides(const geom::Heightfield& ground, Vec3 eye, Vec3 target) {
  return geom::least_visible_height_at(ground, eye, geom::xy(target)) >
         target.z - geom::height_at(ground, geom::xy(target)) + 1e-9;
}

// Adds to `alone` what alone hides the places of the sample from one eye.
class FromEye {
 public:
  FromEye(const Model& model, const SightLines& lines, EyeGround& ground, const Window& window,
          Vec3 eye, const std::vector<std::uint8_t>& usable, double seen_at)
      : model_(model),
        lines_(lines),
        window_(window),
        eye_(eye),
        usable_(usable),
        seen_at_(seen_at),
        tall_(eyes_up(model)),
        hidden_(ground.from(eye)) {}

  void ask(std::size_t node, std::vector<char>& alone) const {
    const bool known = hidden_ != nullptr;
    bool by_ground = known && hidden_->has(node);
    // Where the ground hides it no other thing can do so alone.
    if (by_ground && alone.back() != 0) return;
    const Vec3 target = target_at(node);
    if (!through(window_, model_.ground, eye_, target)) return;
    if (!known) by_ground = ground_hides(model_.ground, eye_, target);
    if (by_ground && (alone.back() != 0 || lines_.blocked(eye_, target))) return;
    find_alone(lines_, by_ground, lines_.taken(eye_, target), seen_at_, alone);
  }

 private:
  Vec3 target_at(std::size_t node) const {
    const geom::Grid& g = model_.ground.grid;
    const Vec2 foot = g.node(static_cast<int>(node % static_cast<std::size_t>(g.nx)),
                             static_cast<int>(node / static_cast<std::size_t>(g.nx)));
    return at_height(target_place(model_, foot, usable_[node]), model_.ground.z[node] + tall_);
  }

  const Model& model_;
  const SightLines& lines_;
  const Window& window_;
  Vec3 eye_;
  const std::vector<std::uint8_t>& usable_;
  double seen_at_, tall_;
  std::shared_ptr<const HiddenByGround> hidden_;
};

}  // namespace

std::vector<ScreenRow> screens(const Model& model, const SightLines& lines, EyeGround& ground,
                               const std::vector<Viewpoint>& views,
                               const std::vector<std::uint8_t>& usable,
                               const std::vector<std::uint8_t>& hidden, double area, double seen_at,
                               const Progress& progress) {
  const geom::Grid& g = model.ground.grid;
  std::size_t all = 0;
  const std::vector<std::size_t> nodes = sample(g, hidden, all);
  if (nodes.empty()) return {};
  const auto things = static_cast<std::size_t>(lines.things()) + 1;
  std::vector<std::vector<char>> alone(nodes.size(), std::vector<char>(things, 0));
  for (const Viewpoint& view : views)
    for (const Vec3 eye : view.eyes) {
      progress.step("sight", 0.9);
      const FromEye look(model, lines, ground, view.window, eye, usable, seen_at);
      tbb::parallel_for(std::size_t{0}, nodes.size(),
                        [&](std::size_t k) { look.ask(nodes[k], alone[k]); });
    }
  const double each = area * static_cast<double>(all) / static_cast<double>(nodes.size());
  std::vector<ScreenRow> rows;
  for (std::size_t t = 0; t < things; ++t) {
    const auto count = std::count_if(alone.begin(), alone.end(),
                                     [&](const std::vector<char>& a) { return a[t] != 0; });
    if (count == 0) continue;
    const bool is_ground = t + 1 == things;
    rows.push_back({is_ground ? kGroundName : lines.name(static_cast<int>(t)),
                    static_cast<double>(count) * each});
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const ScreenRow& a, const ScreenRow& b) { return a.hides_m2 > b.hides_m2; });
  return rows;
}

namespace {

// A hand's breadth before the den's opening, at the animal's eye height: its middle and near its
// sides.
std::array<Vec3, 3> at_opening(const Model& model, const Den& den) {
  constexpr double kBefore = 0.05;    // m
  constexpr double kToTheSide = 0.4;  // of the opening; numeric, a setting
  const Vec2 ahead{std::cos(den.turn), std::sin(den.turn)};
  const Vec2 middle = den.at + ahead * (0.5 * den.size.x + kBefore);
  const Vec2 aside = geom::left_of(ahead) * (kToTheSide * den.opening);
  std::array<Vec3, 3> out;
  for (std::size_t k = 0; k < out.size(); ++k) {
    const Vec2 p = middle + aside * (static_cast<double>(k) - 1.0);
    out[k] = at_height(p, geom::height_at(model.ground, p) + eyes_up(model));
  }
  return out;
}

bool in_sight(const Model& model, const SightLines& lines, double seen_at, const Den& one,
              const Den& other) {
  for (const Vec3 p : at_opening(model, one))
    for (const Vec3 q : at_opening(model, other))
      if (!ground_hides(model.ground, p, q) && !lines.blocked(p, q) &&
          lines.translucent_share(p, q, seen_at) >= seen_at)
        return true;
  return false;
}

}  // namespace

std::vector<DenPair> den_pairs(const Model& model, const SightLines& lines, double seen_at) {
  std::vector<DenPair> pairs;
  const std::vector<Den>& dens = model.site.dens;
  for (std::size_t a = 0; a < dens.size(); ++a)
    for (std::size_t b = a + 1; b < dens.size(); ++b)
      pairs.push_back(
          {dens[a].name, dens[b].name, in_sight(model, lines, seen_at, dens[a], dens[b])});
  return pairs;
}

}  // namespace hummock::sight
