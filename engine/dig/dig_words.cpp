// The dig result in a reviewer's words: every side that can be dug under, not the first.
#include <fmt/format.h>

#include <cmath>

#include "engine/dig/dig_json.h"

namespace hummock::dig {
namespace {

// Of one tunnel: the shortest where it is shallow enough, else the shortest that is.
std::string tunnel_words(const Model& model, const Station& s) {
  const double depth = model.site.species.dig_depth.value;
  if (s.least_length_m < 0.01) {
    return fmt::format("nothing in the ground stops a scrape under {}", quoted(s.thing));
  }
  if (s.depth_of_shortest_m <= depth || !s.length_within_depth_m) {
    return fmt::format("a tunnel {} m deep and {} m long passes {} of {}",
                       plain_figure(s.depth_of_shortest_m), plain_figure(s.least_length_m),
                       s.weakness, quoted(s.thing));
  }
  return fmt::format("a tunnel no deeper than {} m and {} m long passes {} of {}",
                     plain_figure(depth), plain_figure(*s.length_within_depth_m), s.weakness,
                     quoted(s.thing));
}

void add_side(const Model& model, const Station& s, FindingList& list) {
  const Species& animal = model.site.species;
  list.push_back(
      {Severity::way_out, "dig", s.thing,
       fmt::format("at {} {}; the animal digs {} m deep and {} m long", place_words(model, s.at),
                   tunnel_words(model, s), plain_figure(animal.dig_depth.value),
                   plain_figure(animal.dig_length.value)),
       "bury mesh, lay an apron or a footing",
       geom::at_height(s.at, geom::height_at(model.ground, s.at))});
}

}  // namespace

void add_findings(const Result& r, const Model& model, FindingList& list) {
  bool told = false;
  for (const Station& s : r.worst_of_each) {
    if (!s.fails) continue;
    add_side(model, s, list);
    told = true;
  }
  bool burrow_leads_out = false;
  for (const BurrowRow& row : r.burrows) burrow_leads_out |= !row.within;
  if (!told && !r.met && !burrow_leads_out && r.any_open) add_side(model, r.worst, list);
  for (const BurrowRow& row : r.burrows) {
    if (row.within) continue;
    list.push_back({Severity::way_out, "dig", row.name,
                    "the drawn burrow " + quoted(row.name) + " " + row.note,
                    "redraw it further from the barrier", std::nullopt});
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"dig.least_length_m", "shortest tunnel under the barrier", "m", 2, Better::more,
       "Length of the shortest tunnel out, over all stations along the barrier."},
      {"dig.least_depth_m", "shallowest tunnel under the barrier", "m", 2, Better::more,
       "Depth that a tunnel out must reach, the least over all stations along the barrier."}};
  return rows;
}

}  // namespace hummock::dig
