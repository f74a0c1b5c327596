// Room and ground.
#include <fmt/format.h>

#include "engine/draw/site_plan.h"
#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/chapters/parts.h"
#include "engine/report/figures/plan_figures.h"

namespace hummock::report {

namespace {

std::vector<Cell> line(const std::string& what, double value, const std::string& unit,
                       const std::string& note) {
  return {Cell{what, std::nullopt, Mark::none}, cell(value), Cell{unit, std::nullopt, Mark::none},
          Cell{note, std::nullopt, Mark::none}};
}

std::vector<std::vector<Cell>> room_rows(const Model& model, const space::Result& s) {
  std::vector<std::vector<Cell>> rows{
      line("plan area", s.plan_area_m2, "m²", "inside the boundary, on the map"),
      line("surface area", s.surface_area_m2, "m²", "of the ground as it rises and falls"),
      line("usable area", s.usable_area_m2, "m²",
           "no steeper than it stands on, headroom for its body, nothing solid there"),
      line("largest circle", s.largest_circle.radius, "m radius",
           "that fits inside the outline, middle " + place(model, s.largest_circle.centre)),
      line("boundary", s.boundary_length_m, "m", "length round"),
      line("furniture", s.furniture_m3, "m³", "taken off the air"),
  };
  if (s.volume_known) {
    rows.push_back(line("enclosed air", s.volume_m3, "m³",
                        "closed solid of ground, walls and roof or plane of the fence tops, less "
                        "furniture"));
  } else {
    rows.push_back({Cell{"enclosed air", {}, {}}, Cell{"–", {}, {}}, Cell{"m³", {}, {}},
                    Cell{"not known: " + s.volume_note, {}, {}}});
  }
  const std::string under = s.roofed ? "under the roof" : "under the plane of the fence tops";
  rows.push_back(line("least headroom", s.least_headroom_m, "m", under));
  rows.push_back(line("mean headroom", s.mean_headroom_m, "m", under));
  return rows;
}

std::vector<std::vector<Cell>> relief_rows(const relief::Result& r) {
  return {
      line("mean slope", r.mean_slope_deg, "°", "Horn 1981"),
      line("steepest", r.max_slope_deg, "°", "of any node"),
      line("range", r.range_m, "m", "highest less lowest ground"),
      line("Sa", r.sa_m, "m", "mean height about the mean plane (ISO 25178-2)"),
      line("Sq", r.sq_m, "m", "root mean square of the same"),
      line("Sz", r.sz_m, "m", "highest less lowest about the plane"),
      line("Ssk", r.ssk, "1", "skewness: below 0, hollows in a flat; above 0, rises on a flat"),
      line("Sku", r.sku, "1", "kurtosis: 3 is that of chance"),
      line("Sdq", r.sdq, "1", "root mean square gradient"),
      line("Sdr", r.sdr, "1", "surface gained over the plan, share"),
      line("ruggedness", r.tri_mean_m, "m", "mean terrain ruggedness index (Riley 1999)"),
      line("position", r.tpi_sd_m, "m", "spread of the topographic position index"),
      line("roughness", r.roughness_mean_m, "m", "mean, largest difference to a neighbour"),
      line("vector ruggedness", r.vrm_mean, "1", "spread of the normals, 0 even to 1"),
      line("flat share", r.flat_share, "1", "of the ground flatter than 5°"),
      line("spread of aspects", r.aspect_entropy, "1", "Shannon over 8 directions, 1 = all alike"),
  };
}

Table features(const Model& model, const relief::Result& r) {
  Table table;
  table.file = "rises-and-hollows";
  table.title = "Rises and hollows";
  table.columns = {{"Kind", 1.0, false},
                   {"Where", 1.4, false},
                   {"Height", 1.0, true},
                   {"Prominence", 1.0, true}};
  const auto add = [&](const char* kind, const std::vector<relief::Feature>& list) {
    for (std::size_t k = 0; k < list.size() && k < 12; ++k) {
      table.rows.push_back({Cell{kind, {}, {}}, Cell{place(model, list[k].at), {}, {}},
                            cell(list[k].height_m), cell(list[k].prominence_m)});
    }
  };
  add("rise", r.rises);
  add("hollow", r.hollows);
  table.note =
      "Metres; height is above the datum, prominence is how far one must go down (up) to "
      "reach a higher (lower) one. The greatest twelve of each.";
  return table;
}

// The file's own line ends within a paragraph are no one's business.
std::string reflowed(const std::string& text) {
  std::string out;
  for (std::size_t k = 0; k < text.size(); ++k) {
    const bool end = text[k] == '\n';
    if (end && out.empty()) continue;
    const bool paragraph =
        end && ((k + 1 < text.size() && text[k + 1] == '\n') || out.back() == '\n');
    out += end && !paragraph ? ' ' : text[k];
  }
  while (!out.empty() && (out.back() == ' ' || out.back() == '\n')) out.pop_back();
  return out;
}

}  // namespace

Chapter site_chapter(const Sources& sources, const PictureScene& scene) {
  Chapter chapter{"site", "The site", "", {}};
  if (!sources.model.site.story.empty()) {
    chapter.blocks.push_back(Text{reflowed(sources.model.site.story), Tone::body, true});
  }
  chapter.blocks.push_back(TurnModel{still_picture(scene, 20.0 * geom::kDegree, "model-back")});
  draw::Figure plan = draw::site_figure(sources.model);
  plan.caption = fmt::format(
      "Site plan, to scale when printed at full size. Contours of the ground in metres above the "
      "site's datum. Coordinates are the site file's, in metres{}; ground cells of {:g} m.",
      sources.model.site.place ? "; the arrow is true north" : "; +y is taken as north",
      sources.model.ground.grid.cell);
  chapter.blocks.push_back(Picture{plan});
  return chapter;
}

void add_room(Chapter& chapter, const Sources& sources) {
  chapter.blocks.push_back(figures_table("room", room_rows(sources.model, *sources.results.space)));
}

void add_relief(Chapter& chapter, const Sources& sources) {
  const relief::Result& r = *sources.results.relief;
  chapter.blocks.push_back(Picture{slope_plan(sources.model)});
  Table table = figures_table("relief", relief_rows(r));
  table.note = "Over the boundary's polygon only.";
  chapter.blocks.push_back(table);
  Table list = features(sources.model, r);
  if (!list.rows.empty()) chapter.blocks.push_back(list);
}

void add_earthworks(Chapter& chapter, const Sources& sources) {
  const earthworks::Result& e = *sources.results.earthworks;
  chapter.blocks.push_back(Text{
      fmt::format("Earth to move: cut {} m³ over {} m², at most {} m deep; fill {} m³ over {} m², "
                  "at most {} m high; {} m³ to {}. {} m² are steeper than the soil is taken to "
                  "hold ({:.0f}°, {}).",
                  number(e.cut_m3), number(e.cut_area_m2), number(e.deepest_cut_m),
                  number(e.fill_m3), number(e.fill_area_m2), number(e.highest_fill_m),
                  number(std::abs(e.balance_m3)), e.balance_m3 >= 0.0 ? "bring in" : "take away",
                  number(e.too_steep_area_m2), e.repose_deg, e.repose_source),
      Tone::body});
  if (e.cut_m3 + e.fill_m3 > 1e-6) {
    chapter.blocks.push_back(Picture{earthworks_plan(sources.model, e)});
  }
}

}  // namespace hummock::report
