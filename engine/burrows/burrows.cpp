#include "engine/burrows/burrows.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <set>

#include "engine/burrows/drawn_faults.h"
#include "engine/burrows/spot_score.h"
#include "engine/usable/living_nodes.h"

namespace hummock::burrows {
namespace {

bool in_drawn_water(const Site& site, Vec2 p) {
  return std::any_of(site.waters.begin(), site.waters.end(),
                     [&](const Water& w) { return contains(w.outline, p); });
}

struct Candidate {
  Vec2 at;
  double score = 0, fence = 0;
};

std::vector<Candidate> score_row(const Yard& yard, const usable::Nodes& nodes, int j,
                                 geom::Raster& raster) {
  const geom::Grid& g = nodes.grid;
  std::vector<Candidate> row;
  for (int i = 0; i < g.nx; ++i) {
    const Vec2 p = g.node(i, j);
    if (std::isnan(yard.day.midday_shade_share.at(i, j)) || nodes.live[g.index(i, j)] == 0 ||
        in_drawn_water(yard.model.site, p)) {
      continue;
    }
    const BurrowSite s = measure(yard, mouth(yard, p, 0.0));
    if (!s.veto.empty()) continue;
    raster.at(i, j) = static_cast<float>(s.score);
    row.push_back({p, s.score, s.fence_m});
  }
  return row;
}

// Rows side by side, in their order.
std::vector<Candidate> score_all(const Yard& yard, const usable::Nodes& nodes,
                                 geom::Raster& raster) {
  raster = geom::Raster(nodes.grid);
  std::vector<std::vector<Candidate>> rows(static_cast<std::size_t>(nodes.grid.ny));
  tbb::parallel_for(0, nodes.grid.ny, [&](int j) {
    rows[static_cast<std::size_t>(j)] = score_row(yard, nodes, j, raster);
  });
  std::vector<Candidate> all;
  for (const auto& row : rows) all.insert(all.end(), row.begin(), row.end());
  return all;
}

std::vector<BurrowSite> pick_best(const Yard& yard, std::vector<Candidate> all) {
  const Siting& siting = yard.siting;
  constexpr double kTie = 1e-6;
  std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
    const auto level = [](double score) { return std::llround(score / kTie); };
    if (level(a.score) != level(b.score)) return level(a.score) > level(b.score);
    return a.fence > b.fence;
  });
  std::vector<BurrowSite> best;
  for (const Candidate& c : all) {
    if (static_cast<int>(best.size()) >= siting.weights.count) break;
    const bool apart = std::all_of(best.begin(), best.end(), [&](const BurrowSite& s) {
      return distance(s.at, c.at) >= siting.weights.spacing;
    });
    if (!apart) continue;
    best.push_back(measure(yard, mouth(yard, c.at, 0.0)));
    best.back().reasons = reasons(best.back(), siting);
  }
  return best;
}

std::string place(const Model& model, Vec2 local) {
  const Vec2 p = model.to_site(local);
  return fmt::format("({:.1f}, {:.1f})", p.x, p.y);
}

// "the burrow x is in shade for …; the best spot … at (…)": what is wrong with it said first.
std::string spot_words(const Model& model, const std::string& what, const BurrowSite& s,
                       const std::vector<BurrowSite>& best, const Siting& siting,
                       const std::string& hot_clock) {
  std::string words = fmt::format("the {} is in shade for {:.0f} % of 11–15 h by the sun", what,
                                  100 * s.shade_11_15);
  if (!hot_clock.empty()) words += " (" + hot_clock + " by the clock)";
  if (!s.veto.empty()) {
    const bool den = what.rfind("den", 0) == 0;
    words = fmt::format("the {} is {}: {}; it", what,
                        den ? "of no use to the animal" : "no place for a burrow", s.veto) +
            words.substr(words.find(" is in shade"));
  } else if (s.ponding_m > 0.0) {
    words += fmt::format(", rain stands {:.0f} cm deep there", std::ceil(100 * s.ponding_m));
  }
  if (s.soil_m && *s.soil_m < siting.dig_depth) {
    words += fmt::format(", it has {:.1f} m of soil", *s.soil_m);
  }
  if (s.fence_m < siting.dig_length) {
    words +=
        fmt::format(", {:.1f} m from the fence (it digs {:.1f} m)", s.fence_m, siting.dig_length);
  }
  words += fmt::format(": {:.2f} of 1", s.score);
  if (best.empty()) return words;
  return words + fmt::format("; the best spot scores {:.2f} at {}, in shade for {:.0f} %",
                             best[0].score, place(model, best[0].at), 100 * best[0].shade_11_15);
}

bool is_for_sunning(const std::string& name) {
  std::string lower = name;
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return lower.find("sunning") != std::string::npos || lower.find("basking") != std::string::npos;
}

// "sunning rock" and "rock 2" both read well after "the".
std::string sun_words(const Model& model, const std::string& name, double hours,
                      const shade::Day& day) {
  return fmt::format("the {} has {:.1f} h of sun, the sunniest spot has {:.1f} h at {}", name,
                     hours, day.sunniest.hours, place(model, day.sunniest.at));
}

}  // namespace

Result analyse(const Model& model, const shade::Day& day, const water::Result& water) {
  Result result;
  const Yard yard{model, day, water, siting_of(model), usable::UsableGround(model)};
  const usable::Nodes nodes = usable::find_nodes(model, yard.ground, day.midday_shade_share.grid);
  result.best = pick_best(yard, score_all(yard, nodes, result.score));
  const auto add = [&](const std::string& name, const char* kind, Vec2 at, const Patch& patch,
                       const std::string& fault = {}) -> DrawnRow& {
    DrawnRow row;
    row.name = name;
    row.kind = kind;
    row.at = at;
    row.as_spot = measure(yard, patch);
    row.as_spot.at = at;
    if (!fault.empty() && row.as_spot.veto.empty()) {
      row.as_spot.veto = fault;
      row.as_spot.score = 0.0;
    }
    row.as_spot.reasons = reasons(row.as_spot, yard.siting);
    row.sun_hours = sample(day.sun_hours, patch.at, 0.0);
    row.words = spot_words(model, std::string(kind) + " \"" + name + "\"", row.as_spot, result.best,
                           yard.siting, day.hot_clock);
    result.drawn.push_back(row);
    return result.drawn.back();
  };
  for (const Burrow& b : model.site.burrows)
    add(b.name, "burrow", b.mouth, mouth(yard, b.mouth, b.diameter), burrow_fault(yard, nodes, b));
  for (const Den& d : model.site.dens) {
    const Patch front = den_front(yard, d);
    add(d.name, "den", d.at, front, den_fault(yard, nodes, d, front.at));
  }
  std::optional<std::set<std::string>> lost;  // asked once, and only for a rock to sun on
  for (const shade::ObjectRow& o : day.objects) {
    if (!is_for_sunning(o.name)) continue;
    if (!lost) lost = tops_not_gained(yard, nodes);
    DrawnRow& row = add(o.name, "sunning rock", xy(o.at), mouth(yard, xy(o.at), 0.0));
    row.sun_hours = o.sun_hours;
    row.words = sun_words(model, o.name, o.sun_hours, day);
    const bool lies = lies_on_top(yard, o.name);
    if (lies && lost->count(o.name) == 0) continue;
    row.sun_hours = 0.0;
    row.words += lies ? ", but its top is not shown to be within the animal's leap from ground it "
                        "comes to: it counts as none"
                      : ", but no place on its top is shown to hold the lying animal: it counts as "
                        "none";
  }
  return result;
}

}  // namespace hummock::burrows
