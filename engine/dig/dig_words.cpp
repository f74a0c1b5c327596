// The dig result in a reviewer's words: every side that can be dug under, not the first.
#include <fmt/format.h>

#include <cmath>

#include "engine/dig/dig_json.h"

namespace hummock::dig {
namespace {

std::string tunnel_words(const Station& s) {
  if (s.tunnel_length_m < 0.01) {
    return fmt::format("nothing in the ground stops a scrape under {}", quoted(s.thing));
  }
  return fmt::format("a tunnel {} m deep and {} m long passes {} of {}",
                     plain_figure(s.tunnel_depth_m), plain_figure(s.tunnel_length_m), s.weakness,
                     quoted(s.thing));
}

void add_side(const Model& model, const WayUnder& way, FindingList& list) {
  const Species& animal = model.site.species;
  const Station& s = way.worst;
  const std::string along =
      way.along_m > 0.0 ? fmt::format(", along {} m of this side", plain_figure(way.along_m)) : "";
  list.push_back(
      {Severity::way_out, "dig", s.thing,
       fmt::format("at {} {}{}; the animal digs {} m deep and {} m long", place_words(model, s.at),
                   tunnel_words(s), along, plain_figure(animal.dig_depth.value),
                   plain_figure(animal.dig_length.value)),
       "bury mesh, lay an apron or a footing",
       geom::at_height(s.at, geom::height_at(model.ground, s.at))});
}

}  // namespace

void add_findings(const Result& r, const Model& model, FindingList& list) {
  for (const WayUnder& way : r.ways_under) add_side(model, way, list);
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
       "Length of the shortest tunnel out, over all stations along the barrier and from every "
       "drawn burrow what it leaves to dig."},
      {"dig.least_depth_m", "shallowest tunnel under the barrier", "m", 2, Better::more,
       "Depth that a tunnel out must reach, the least over all stations along the barrier."}};
  return rows;
}

}  // namespace hummock::dig
