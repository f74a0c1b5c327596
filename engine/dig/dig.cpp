#include "engine/dig/dig.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>

#include "engine/dig/between_places.h"
#include "engine/dig/burrow_check.h"
#include "engine/dig/station_tunnels.h"
#include "engine/dig/wider_ground.h"

namespace hummock::dig {

namespace {

constexpr std::size_t kBatch = 1024;  // stations between two looks at the progress

// The length that counts, then the depth, then any length: less is worse. To the micrometre, so
// that rounding does not choose between equals.
std::array<double, 3> badness(const Station& s) {
  constexpr double kNone = std::numeric_limits<double>::infinity();
  const auto rounded = [](double v) { return std::isfinite(v) ? std::round(v * 1e6) : v; };
  return {rounded(s.length_within_depth_m.value_or(kNone)), rounded(s.least_depth_m),
          rounded(s.least_length_m)};
}

bool is_worse(const Station& s, const Station& than) {
  if (s.closed != than.closed) return than.closed;
  return badness(s) < badness(than);
}

// Those that are not measured yet.
void measure_all(const Model& model, const BuriedParts& parts,
                 const std::vector<StationPlace>& places, const Progress& progress,
                 std::vector<Station>& stations) {
  const std::size_t measured = stations.size();
  stations.resize(places.size());
  for (std::size_t from = measured; from < places.size(); from += kBatch) {
    progress.step("dig", static_cast<double>(from) / static_cast<double>(places.size()));
    const std::size_t to = std::min(places.size(), from + kBatch);
    tbb::parallel_for(tbb::blocked_range<std::size_t>(from, to, 16), [&](const auto& range) {
      for (std::size_t k = range.begin(); k != range.end(); ++k) {
        stations[k] = measure_station(model, parts, places[k], false);
      }
    });
  }
}

// The first of the worst stations of each thing.
std::map<std::string, std::size_t> worst_by_thing(const std::vector<Station>& stations) {
  std::map<std::string, std::size_t> worst;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const auto [it, fresh] = worst.try_emplace(stations[k].thing, k);
    if (!fresh && is_worse(stations[k], stations[it->second])) it->second = k;
  }
  return worst;
}

// Of each thing and side the worst station that fails. Stations come in the order of the fence.
std::vector<WayUnder> ways_under(const std::vector<Station>& stations,
                                 const std::vector<StationPlace>& places, double spacing,
                                 std::vector<std::size_t>& worst) {
  std::map<std::pair<std::string, int>, std::size_t> index;
  std::vector<WayUnder> ways;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    if (!stations[k].fails) continue;
    const auto [it, fresh] = index.try_emplace({stations[k].thing, places[k].side}, ways.size());
    if (fresh) {
      ways.push_back({stations[k], 0.0});
      worst.push_back(k);
    }
    WayUnder& way = ways[it->second];
    if (is_worse(stations[k], stations[worst[it->second]])) worst[it->second] = k;
    if (!places[k].corner && !places[k].folded && !places[k].between) way.along_m += spacing;
  }
  return ways;
}

// The worst stations with their tunnels: of each thing, and of each way under.
void tell_worst(const Model& model, const BuriedParts& parts,
                const std::vector<StationPlace>& places, double spacing, Result& result) {
  std::vector<std::size_t> told;
  for (const auto& [thing, k] : worst_by_thing(result.stations)) told.push_back(k);
  tbb::parallel_for(std::size_t{0}, told.size(), [&](std::size_t i) {
    result.stations[told[i]] = measure_station(model, parts, places[told[i]], true);
  });
  for (const std::size_t k : told) result.worst_of_each.push_back(result.stations[k]);
  std::vector<std::size_t> worst;
  result.ways_under = ways_under(result.stations, places, spacing, worst);
  tbb::parallel_for(std::size_t{0}, worst.size(), [&](std::size_t i) {
    const std::size_t k = worst[i];
    const bool known = std::find(told.begin(), told.end(), k) != told.end();
    result.ways_under[i].worst =
        known ? result.stations[k] : measure_station(model, parts, places[k], true);
  });
}

void sum_up(Result& result) {
  constexpr double kNone = std::numeric_limits<double>::infinity();
  result.least_depth_m = result.least_length_m = kNone;
  result.met = true;
  const Station* worst = nullptr;
  for (const Station& s : result.stations) {
    if (!s.way_out) continue;
    if (worst == nullptr || is_worse(s, *worst)) worst = &s;
    if (s.fails) result.met = false;
    if (s.closed) continue;
    result.any_open = true;
    result.least_depth_m = std::min(result.least_depth_m, s.least_depth_m);
    result.least_length_m = std::min(result.least_length_m, s.least_length_m);
  }
  if (worst != nullptr) result.worst = *worst;
  for (const BurrowRow& row : result.burrows) {
    result.met = result.met && row.within;
    if (row.left_at_any_depth_m.value_or(kNone) >= result.least_length_m) continue;
    result.least_length_m = *row.left_at_any_depth_m;
    result.shortest_from = row.name;
  }
}

}  // namespace

Result analyse(const Model& given, const Settings& settings, const Progress& progress) {
  assert(settings.station_spacing > 0.0);
  const std::optional<Model> wide = on_wider_ground(given);
  const Model& model = wide ? *wide : given;
  const BuriedParts parts(
      model, soil_over_rock(model) ? before_loss(given, model.ground.grid) : std::nullopt);
  std::vector<StationPlace> places = station_places(model, parts, settings.station_spacing);
  Result result;
  measure_all(model, parts, places, progress, result.stations);
  const auto between = places_between(model, result.stations, places, settings.station_spacing);
  places.insert(places.end(), between.begin(), between.end());
  measure_all(model, parts, places, progress, result.stations);
  tell_worst(model, parts, places, settings.station_spacing, result);
  const std::vector<Burrow>& burrows = model.site.burrows;
  result.burrows.resize(burrows.size());
  tbb::parallel_for(std::size_t{0}, burrows.size(), [&](std::size_t i) {
    result.burrows[i] = check_burrow(model, parts, burrows[i]);
  });
  sum_up(result);
  return result;
}

}  // namespace hummock::dig
