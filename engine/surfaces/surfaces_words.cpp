// What surfaces is, and its result in a reviewer's words.
#include <fmt/format.h>

#include "engine/surfaces/surfaces_json.h"

namespace hummock::surfaces {
namespace {

const Surfacing& surface_of(const Model& model, const LayerRow& row) {
  return model.site.surfaces[static_cast<std::size_t>(row.surface)];
}

Vec2 middle_of(const Polygon& outline) {
  const geom::Box2 box = geom::bounds(outline);
  return (box.lo + box.hi) * 0.5;
}

Finding look_at_surface(const Model& model, const Surfacing& surface, const std::string& text,
                        const std::string& to_do) {
  const Vec2 at = middle_of(surface.outline);
  return {Severity::look, "surfaces",
          surface.name,   "at " + place_words(model, at) + " " + quoted(surface.name) + " " + text,
          to_do,          geom::at_height(at, geom::height_at(model.ground, at))};
}

std::string or_dash(const std::optional<double>& value) {
  return value ? plain_figure(*value) : "–";
}

std::string per_cent(double share) {
  return fmt::format("{:.0f}", 100.0 * share);
}

PlainTable materials_table(const Result& result) {
  PlainTable table;
  table.file = "surfaces-materials";
  table.title = "What the ground is made of";
  table.columns = {"Material", "Area, m²", "Share, %", "Least depth, m", "Mean depth, m"};
  for (std::size_t m = 0; m < kMaterials; ++m) {
    const MaterialRow& row = result.materials[m];
    if (row.area_m2 > 0.0)
      table.rows.push_back({material_words()[m], plain_figure(row.area_m2), per_cent(row.share),
                            or_dash(row.least_m), or_dash(row.mean_m)});
  }
  if (result.unsaid_m2 > 0.0)
    table.rows.push_back({"not said", plain_figure(result.unsaid_m2),
                          per_cent(result.unsaid_m2 / result.ground_m2), "–", "–"});
  table.note = about().limits;
  return table;
}

PlainTable cover_table(const Plants& plants) {
  PlainTable table;
  table.file = "surfaces-cover";
  table.title = "Cover of plants over the usable ground, by height";
  table.columns = {"Height above the ground", "In leaf, %", "Leaves down, %"};
  for (std::size_t b = 0; b < kBandWords.size(); ++b)
    table.rows.push_back(
        {kBandWords[b].said, per_cent(plants.in_leaf.bands[b]), per_cent(plants.bare.bands[b])});
  table.rows.push_back({"in all", per_cent(plants.in_leaf.all), per_cent(plants.bare.all)});
  table.note = "Of light and sight from straight above; crowns of trees are not counted.";
  return table;
}

}  // namespace

AnalysisInfo about() {
  return {.name = "surfaces",
          .question = "What is the ground made of, where can it dig, and what grows there?",
          .group = "ground",
          .explained = "engine/surfaces/surfaces.h",
          .depends_on = {"ground", "boundary", "roof", "object", "planting", "den", "house",
                         "water", "surface", "leap", "species"},
          .model = fmt::format(
              "Points at most {:g} m apart (wider in very large yards), each for its square: "
              "inside the boundary, in no house and in no solid. A point is of the last surface "
              "of the file that holds it. Ground to dig in is sand, soil, loam or litter as deep "
              "as is asked, no deeper than rock, a liner, an apron or a footing, on dry ground the "
              "animal can live on "
              "and comes to. Cover is what plantings stop of light and sight from straight above, "
              "by height, in leaf and with leaves down.",
              kApart),
          .limits =
              "an area is off by at most half the length of its outline times the distance of "
              "the points; layers below the uppermost are not counted, nor are crowns of trees. "
              "Surfaces change no other answer: tunnels are taken to go through concrete drawn "
              "as a surface, and rain to pond on what drains."};
}

std::optional<NotRun> cannot(const Site&) {
  return std::nullopt;
}

void add_findings(const Result& result, const Model& model, FindingList& list) {
  for (const LayerRow& row : result.layers) {
    const Surfacing& surface = surface_of(model, row);
    if (row.area_m2 == 0.0)
      list.push_back(look_at_surface(model, surface, "lies nowhere uppermost on the ground",
                                     "see what covers it: a later surface lies over an earlier"));
    if (row.rock_m)
      list.push_back(look_at_surface(
          model, surface,
          fmt::format("is said to be {} m deep where rock or liner lies {} m down: no more than "
                      "that is counted",
                      plain_figure(*surface.depth), plain_figure(*row.rock_m)),
          "put its depth or the ground's depth of soil right"));
    if (!surface.depth && is_dug(surface.material) && row.area_m2 > 0.0)
      list.push_back(look_at_surface(model, surface,
                                     "does not say how deep it is: it is no ground to dig in",
                                     "say its depth"));
  }
}

PlainTables chapter(const Result& result, const Model& model) {
  PlainTables tables;
  if (!model.site.surfaces.empty()) tables.push_back(materials_table(result));
  if (!model.site.plantings.empty()) tables.push_back(cover_table(result.plants));
  return tables;
}

}  // namespace hummock::surfaces
