#include "engine/sight/sight_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace hummock::sight {
namespace {

// Listed in the JSON; a rough survey can leave thousands of hidden specks.
constexpr std::size_t kListed = 50;

struct Lying {
  int places = 0;
  double largest_m2 = 0.0;
  Vec2 at;
};
Lying lying(const Result& r) {
  Lying l;
  for (const HiddenPlace& h : r.hidden) {
    if (!h.room_to_lie) continue;
    ++l.places;
    if (h.area_m2 <= l.largest_m2) continue;
    l.largest_m2 = h.area_m2;
    l.at = h.centre;
  }
  return l;
}

int pairs_in_sight(const Result& r) {
  return static_cast<int>(
      std::count_if(r.dens.begin(), r.dens.end(), [](const DenPair& d) { return d.in_sight; }));
}

// Why what is unseen is not known; empty where it is.
std::string blind(const Result& r) {
  for (const ViewRow& v : r.views)
    if (v.eyes_inside > 0)
      return fmt::format("guests' eyes at '{}' stand inside '{}': what they see is not known",
                         v.name, v.inside);
  return {};
}

nlohmann::json hidden_list(const Result& r, const Model& model) {
  auto out = nlohmann::json::array();
  for (std::size_t k = 0; k < std::min(kListed, r.hidden.size()); ++k) {
    const Vec2 at = model.to_site(r.hidden[k].centre);
    out.push_back({{"at", {at.x, at.y}},
                   {"area_m2", r.hidden[k].area_m2},
                   {"room_to_lie", r.hidden[k].room_to_lie}});
  }
  return out;
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  auto views = nlohmann::json::array(), screens = nlohmann::json::array(),
       dens = nlohmann::json::array();
  for (const ViewRow& v : result.views)
    views.push_back(
        {{"name", v.name}, {"seen_share", v.seen_share}, {"eyes", v.eyes}, {"note", v.note}});
  for (const ScreenRow& s : result.screens)
    screens.push_back({{"thing", s.thing}, {"hides_m2", s.hides_m2}});
  for (const DenPair& d : result.dens)
    dens.push_back({{"a", d.a}, {"b", d.b}, {"in_sight", d.in_sight}});
  const auto in_leaf =
      result.unseen_in_leaf_m2 ? nlohmann::json(*result.unseen_in_leaf_m2) : nlohmann::json();
  return {{"seen_share", result.seen_share},
          {"unseen_area_m2", result.unseen_area_m2},
          {"unseen_in_leaf_m2", in_leaf},
          {"usable_area_m2", result.usable_area_m2},
          {"guest_boundary_share", result.guest_boundary_share},
          {"hidden_places", lying(result).places},
          {"hidden", hidden_list(result, model)},
          {"hidden_count", result.hidden.size()},
          {"views", views},
          {"screens", screens},
          {"dens", dens},
          {"dens_in_sight", pairs_in_sight(result)}};
}

// sight.hidden_places counts the places with room to lie; sight.largest_hidden_m2 is the largest.
void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto add = [&](const char* key, double value, std::string where = {}) {
    Figure figure;
    figure.value = value;
    figure.where = std::move(where);
    figures[std::string("sight.") + key] = figure;
  };
  const std::string why = blind(result);
  const auto least = [&](const char* key, std::optional<double> known) {
    if (why.empty()) return;
    Figure& figure = figures[std::string("sight.") + key];
    figure.outcome = Outcome::incomplete;
    figure.bounded_below = known;
    figure.why = why;
  };
  const Lying l = lying(result);
  const bool seasons = result.unseen_in_leaf_m2.has_value();
  add("seen_share", result.seen_share, seasons ? "in leaf" : "");
  add("unseen_area_m2", result.unseen_area_m2,
      seasons ? fmt::format("leaves down; in leaf {:.1f} m²", *result.unseen_in_leaf_m2) : "");
  add("usable_area_m2", result.usable_area_m2);
  add("guest_boundary_share", result.guest_boundary_share);
  add("hidden_places", l.places);
  add("largest_hidden_m2", l.largest_m2);
  add("dens_in_sight", pairs_in_sight(result));
  least("seen_share", result.seen_share);
  for (const char* key : {"unseen_area_m2", "hidden_places", "largest_hidden_m2"})
    least(key, std::nullopt);
}

}  // namespace hummock::sight
