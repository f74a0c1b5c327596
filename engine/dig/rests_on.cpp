#include "engine/dig/rests_on.h"

#include <algorithm>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"

namespace hummock::dig {
namespace {

using Member = Sourced<double> Species::*;

struct Premise {
  Assumption told;
  Member member = nullptr;
  double careful = 0.0;
};

std::optional<Premise> premise(const Model& model, Member member, const char* key,
                               const char* words) {
  const Sourced<double>& figure = model.site.species.*member;
  const std::optional<double> most = careful_end(figure, kMore);
  if (!most) return std::nullopt;
  Premise p;
  p.member = member;
  p.careful = *most;
  p.told.key = key;
  p.told.used_value = plain_figure(figure.value) + " m";
  p.told.careful_value = plain_figure(*most) + " m";
  p.told.words = std::string(words) + " than " + p.told.used_value + " (used; careful " +
                 p.told.careful_value + ")";
  take_confirmations(model.site, p.told);
  return p;
}

struct Reach {
  double depth = 0.0, length = 0.0;  // m
};

Reach reach_with(const Species& species, const std::vector<const Premise*>& set) {
  Reach out{species.dig_depth.value, species.dig_length.value};
  for (const Premise* p : set) {
    (p->member == &Species::dig_depth ? out.depth : out.length) = p->careful;
  }
  return out;
}

// No tunnel of any station can be within both: each figure is the least over all its tunnels.
bool surely_held(const Result& found, Reach reach) {
  return std::none_of(found.stations.begin(), found.stations.end(), [&](const Station& s) {
    return s.way_out && !s.closed && s.least_depth_m <= reach.depth &&
           s.least_length_m <= reach.length;
  });
}

bool gets_out(const Model& model, const Settings& settings, const Progress& progress,
              const Result& found, const std::vector<const Premise*>& set) {
  const Reach reach = reach_with(model.site.species, set);
  if (surely_held(found, reach) && model.site.burrows.empty()) return false;
  Model careful = model;
  careful.site.species.dig_depth.value = reach.depth;
  careful.site.species.dig_length.value = reach.length;
  progress.step("dig: what it rests on", 0.0);
  return !analyse(careful, settings, progress).met;
}

}  // namespace

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress) {
  RestsOn out;
  out.figures = {"dig.least_length_m", "dig.least_depth_m"};
  if (!found.met) return out;
  const auto length =
      premise(model, &Species::dig_length, "dig_length", "it digs no longer a tunnel");
  const auto depth = premise(model, &Species::dig_depth, "dig_depth", "it digs no deeper");
  std::vector<const Premise*> all;
  if (length) all.push_back(&*length);
  if (depth) all.push_back(&*depth);
  if (all.empty() || !gets_out(model, settings, progress, found, all)) return out;
  for (const Premise* p : all) {
    if (all.size() == 1 || gets_out(model, settings, progress, found, {p})) {
      out.list.push_back(p->told);
    }
  }
  if (out.list.empty()) out.list.push_back(either_of(length->told, depth->told));
  return out;
}

}  // namespace hummock::dig
