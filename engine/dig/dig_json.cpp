#include "engine/dig/dig_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace hummock::dig {

namespace {

nlohmann::json number(double value) {
  return std::isfinite(value) ? nlohmann::json(value) : nlohmann::json(nullptr);
}

nlohmann::json number(const std::optional<double>& value) {
  return value ? number(*value) : nlohmann::json(nullptr);
}

nlohmann::json station(const Station& s, const Model& model) {
  const Vec2 at = model.to_site(s.at);
  nlohmann::json out{{"thing", s.thing},
                     {"at", {at.x, at.y}},
                     {"least_depth_m", number(s.least_depth_m)},
                     {"least_length_m", number(s.least_length_m)},
                     {"depth_of_shortest_m", number(s.depth_of_shortest_m)},
                     {"length_within_depth_m", number(s.length_within_depth_m)},
                     {"closed", s.closed},
                     {"way_out", s.way_out},
                     {"fails", s.fails},
                     {"weakness", s.weakness},
                     {"tunnel_depth_m", number(s.tunnel_depth_m)},
                     {"tunnel_length_m", number(s.tunnel_length_m)},
                     {"askew", s.askew},
                     {"tunnel", nlohmann::json::array()}};
  for (const Vec3& p : s.tunnel) {
    const Vec3 q = model.to_site(p);
    out["tunnel"].push_back({q.x, q.y, q.z});
  }
  return out;
}

nlohmann::json burrow(const BurrowRow& row) {
  return {{"name", row.name},
          {"within", row.within},
          {"distance_to_barrier_m", number(row.distance_to_barrier_m)},
          {"left_to_dig_m", number(row.left_to_dig_m)},
          {"note", row.note}};
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json out{{"least_depth_m", number(result.least_depth_m)},
                     {"least_length_m", number(result.least_length_m)},
                     {"any_open", result.any_open},
                     {"met", result.met},
                     {"at", nullptr},
                     {"station_count", result.stations.size()},
                     {"worst", nullptr},
                     {"things", nlohmann::json::array()},
                     {"ways_under", nlohmann::json::array()},
                     {"burrows", nlohmann::json::array()}};
  if (result.any_open) {
    const Vec2 at = model.to_site(result.worst.at);
    out["at"] = {at.x, at.y};
    out["worst"] = station(result.worst, model);
  }
  for (const Station& s : result.worst_of_each) out["things"].push_back(station(s, model));
  for (const WayUnder& way : result.ways_under) {
    out["ways_under"].push_back(station(way.worst, model));
    out["ways_under"].back()["along_m"] = way.along_m;
  }
  for (const BurrowRow& row : result.burrows) out["burrows"].push_back(burrow(row));
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  const std::string where =
      result.any_open ? result.worst.thing + ", " + result.worst.weakness : "";
  const auto add = [&](const char* key, double value) {
    Figure figure;
    figure.where = where;
    figure.unbounded = !std::isfinite(value);
    if (!figure.unbounded) figure.value = value;
    figures[key] = figure;
  };
  add("dig.least_depth_m", result.least_depth_m);
  add("dig.least_length_m", result.least_length_m);
  if (!result.shortest_from.empty())
    figures["dig.least_length_m"].where = "from the burrow " + result.shortest_from;
}

}  // namespace hummock::dig
