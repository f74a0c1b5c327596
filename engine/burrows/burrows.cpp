#include "engine/burrows/burrows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "engine/burrows/spot_score.h"
#include "engine/shade/beam/covered_ground.h"

namespace hummock::burrows {
namespace {

// Where no burrow can be: in water, houses, or inside or right under something solid.
class Taken {
 public:
  explicit Taken(const Model& model)
      : site_(model.site), buried_(model), room_(model.site.species.body.value[2]) {}
  bool at(Vec2 p) const {
    const auto inside = [&](const auto& thing) { return contains(thing.outline, p); };
    return std::any_of(site_.waters.begin(), site_.waters.end(), inside) ||
           std::any_of(site_.houses.begin(), site_.houses.end(), inside) || buried_.at(p, room_);
  }

 private:
  const Site& site_;
  shade::CoveredGround buried_;
  double room_;  // m
};

struct Candidate {
  Vec2 at;
  double score = 0, fence = 0;
};

std::vector<Candidate> score_all(const Model& model, const shade::Day& day,
                                 const water::Result& water, const Siting& siting,
                                 geom::Raster& raster) {
  const Taken taken(model);
  const geom::Grid& g = day.midday_shade_share.grid;
  raster = geom::Raster(g);
  std::vector<Candidate> all;
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      if (std::isnan(day.midday_shade_share.at(i, j))) continue;
      const Vec2 p = g.node(i, j);
      if (slope_at(model.ground, p) > siting.stand_slope || taken.at(p)) continue;
      const BurrowSite s = measure(model, day, water, siting, p);
      raster.at(i, j) = static_cast<float>(s.score);
      all.push_back({p, s.score, s.fence_m});
    }
  }
  return all;
}

std::vector<BurrowSite> pick_best(const Model& model, const shade::Day& day,
                                  const water::Result& water, const Siting& siting,
                                  std::vector<Candidate> all) {
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
    best.push_back(measure(model, day, water, siting, c.at));
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
                       const std::vector<BurrowSite>& best, const Siting& siting) {
  std::string words =
      fmt::format("the {} is in shade for {:.0f} % of 11–15 h", what, 100 * s.shade_11_15);
  if (s.ponding_m > 0.0) {
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
  const Siting siting = siting_of(model);
  result.best =
      pick_best(model, day, water, siting, score_all(model, day, water, siting, result.score));
  const auto add = [&](const std::string& name, const char* kind, Vec2 at) -> DrawnRow& {
    DrawnRow row;
    row.name = name;
    row.kind = kind;
    row.at = at;
    row.as_spot = measure(model, day, water, siting, at);
    row.as_spot.reasons = reasons(row.as_spot, siting);
    row.sun_hours = sample(day.sun_hours, at, 0.0);
    row.words = spot_words(model, std::string(kind) + " \"" + name + "\"", row.as_spot, result.best,
                           siting);
    result.drawn.push_back(row);
    return result.drawn.back();
  };
  for (const Burrow& b : model.site.burrows) add(b.name, "burrow", b.mouth);
  for (const Den& d : model.site.dens) add(d.name, "den", d.at);
  for (const shade::ObjectRow& o : day.objects) {
    if (!is_for_sunning(o.name)) continue;
    DrawnRow& row = add(o.name, "sunning rock", xy(o.at));
    row.sun_hours = o.sun_hours;
    row.words = sun_words(model, o.name, o.sun_hours, day);
  }
  return result;
}

}  // namespace hummock::burrows
