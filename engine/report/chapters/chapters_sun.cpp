// Sun and shade, water, hiding, guests, indoors.
#include <fmt/format.h>

#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/figures/curve_figures.h"
#include "engine/report/figures/plan_figures.h"

namespace hummock::report {
namespace {

Table tops_table(const Model& model, const shade::Day& day) {
  Table table;
  table.file = "sun-on-tops";
  table.title = "Sun on the tops of things";
  table.columns = {{"Thing", 2.0, false}, {"Place", 1.4, false}, {"Hours of sun", 1.0, true}};
  for (const shade::ObjectRow& row : day.objects) {
    table.rows.push_back({text(row.name), text(place(model, row.at)), cell(row.sun_hours)});
  }
  table.note = "Mean over the part of the surface that looks up, design day, clear sky.";
  return table;
}

Table curve_table(const shade::Day& day) {
  Table table;
  table.file = "shade-over-the-day";
  table.title = "Shade hour by hour";
  table.columns = {{"Clock", 1.0, true},
                   {"Sun's azimuth", 1.0, true},
                   {"Sun's height", 1.0, true},
                   {"In shade", 1.0, true},
                   {"Shade for each", 1.0, true}};
  for (std::size_t k = 0; k < day.times.size(); ++k) {
    Cell azimuth = cell(day.times[k].azimuth / geom::kDegree);
    Cell height = cell(day.times[k].elevation / geom::kDegree);
    table.rows.push_back({text(day.time_labels[k]), azimuth, height, cell(day.shaded_share[k]),
                          cell(day.shaded_m2_per_animal[k])});
  }
  return table;
}

// On the page one row in three is enough; the CSV keeps all.
Table thinned(Table table) {
  constexpr std::size_t kMostRows = 30;
  const std::size_t every = (table.rows.size() + kMostRows - 1) / kMostRows;
  if (every <= 1) return table;
  table.shown_every = every;
  table.note = fmt::format(
      "Every {}{} step; all are in the CSV. Degrees, share of the ground, m² for each animal.",
      every, every == 2 ? "nd" : (every == 3 ? "rd" : "th"));
  return table;
}

}  // namespace

void add_shade(Chapter& chapter, const Sources& sources) {
  const shade::Day& day = *sources.results.shade;
  const Model& model = sources.model;
  chapter.blocks.push_back(Text{
      fmt::format(
          "On {} the ground has {} h of direct sun on the mean, from {} h at {} to {} h at "
          "{}. Between 11 and 15 h by the sun there are never less than {} m² of shade for "
          "each animal (least at {}). Clear-sky irradiation {} kWh/m² on the mean, {} on open "
          "level ground.",
          sun::text(day.date), number(day.sun_hours_mean), number(day.sun_hours_min),
          place(model, day.coolest.at), number(day.sun_hours_max), place(model, day.sunniest.at),
          number(day.hottest_shade_m2_per_animal), shade::hottest_in_words(day),
          number(day.irradiation_mean_kwh_m2), number(day.open_irradiation_kwh_m2)),
      Tone::lead});
  if (const auto six = six_hours_plan(model, day)) chapter.blocks.push_back(Picture{*six});
  shade::Settings settings = sources.season_settings;
  settings.step_minutes = sources.results.settings.shade.step_minutes;
  if (const auto curve = shade_curve(model, day, sources.seasons, settings)) {
    chapter.blocks.push_back(Picture{*curve});
  }
  chapter.blocks.push_back(Picture{sun_hours_plan(model, day, sources.results.settings.shade)});
  if (!sources.seasons.empty()) {
    chapter.blocks.push_back(
        Picture{seasons_plan(model, sources.seasons, sources.season_settings)});
  }
  if (!day.objects.empty()) chapter.blocks.push_back(tops_table(model, day));
  if (!day.times.empty()) chapter.blocks.push_back(thinned(curve_table(day)));
}

void add_water(Chapter& chapter, const Sources& sources) {
  const Model& model = sources.model;
  const water::Result& r = *sources.results.water;
  if (!r.basins.empty()) {
    Table table;
    table.file = "water";
    table.title = "Drawn waters";
    table.columns = {{"Water", 1.5, false},        {"Level", 0.8, true},
                     {"Deepest", 0.8, true},       {"Area", 0.8, true},
                     {"Volume", 0.8, true},        {"Climbs out", 1.3, false},
                     {"Wading across", 1.0, true}, {"Holds", 1.4, false}};
    for (const water::BasinRow& b : r.basins) {
      table.rows.push_back(
          {text(b.name), cell(b.level_m), cell(b.deepest_m), cell(b.area_m2), cell(b.volume_m3),
           b.can_climb_out ? text("yes", Mark::met) : text("no side", Mark::look),
           cell(b.wading_route_deepest_m),
           b.holds_water ? text("yes", Mark::met) : text("runs over", Mark::look)});
    }
    table.note = fmt::format(
        "m, m², m³. Climbs out: some side is no steeper than the animal stands on ({:.0f}°). "
        "Wading "
        "across: greatest depth on the shallowest way; the animal wades {} m.",
        model.site.species.stand_slope.value / geom::kDegree,
        number(model.site.species.wade_depth.value));
    chapter.blocks.push_back(table);
  }
  chapter.blocks.push_back(Picture{ponding_plan(model, r)});
  if (!r.ponds.empty()) {
    Table table;
    table.file = "ponds";
    table.title = "Where rain stands";
    table.columns = {{"Place", 1.4, false},
                     {"Depth", 0.8, true},
                     {"Area", 0.8, true},
                     {"Volume", 0.8, true},
                     {"Note", 1.6, false}};
    for (const water::Pond& p : r.ponds) {
      table.rows.push_back({text(place(model, p.at)), cell(p.depth_m), cell(p.area_m2),
                            cell(p.volume_m3), text(p.drained ? "drained" : "stands")});
    }
    table.note =
        fmt::format("m, m², m³. Ponds shallower than {:g} m are not listed.", water::kLeastPond);
    chapter.blocks.push_back(table);
  }
}

void add_hiding(Chapter& chapter, const Sources& sources) {
  const Model& model = sources.model;
  const sight::Result& r = *sources.results.sight;
  chapter.blocks.push_back(
      Text{fmt::format("{} m² of {} m² usable ground are seen by no guest, in {} places.",
                       number(r.unseen_area_m2), number(r.usable_area_m2), r.hidden.size()),
           Tone::lead});
  Table table;
  table.file = "hidden-places";
  table.title = "Places that no guest sees";
  table.columns = {{"Place", 1.4, false}, {"Area", 0.8, true}, {"Room to lie", 1.0, false}};
  for (std::size_t k = 0; k < r.hidden.size() && k < 15; ++k) {
    const sight::HiddenPlace& h = r.hidden[k];
    table.rows.push_back({text(place(model, h.centre)), cell(h.area_m2),
                          h.room_to_lie ? text("yes", Mark::met) : text("no", Mark::none)});
  }
  table.note = "m². Room to lie: holds the animal's length and width. The fifteen largest.";
  if (!table.rows.empty()) chapter.blocks.push_back(table);
  if (!r.screens.empty()) {
    Table screens;
    screens.file = "screens";
    screens.title = "What hides them";
    screens.columns = {{"Thing", 2.0, false}, {"Hides", 1.0, true}};
    for (const sight::ScreenRow& s : r.screens) {
      screens.rows.push_back({text(s.thing), cell(s.hides_m2)});
    }
    screens.note = "m² that guests would see more of if the thing were not there.";
    chapter.blocks.push_back(screens);
  }
  Bullets dens;
  for (const sight::DenPair& pair : r.dens) {
    dens.lines.push_back(
        fmt::format("{} and {} are {}.", pair.a, pair.b,
                    pair.in_sight ? "in sight of one another" : "out of each other's sight"));
  }
  if (!dens.lines.empty()) chapter.blocks.push_back(dens);
}

void add_guests(Chapter& chapter, const Sources& sources) {
  const sight::Result& r = *sources.results.sight;
  chapter.blocks.push_back(Picture{sight_plan(sources.model, r)});
  Table table;
  table.file = "views";
  table.title = "Viewing places";
  table.columns = {{"Viewing place", 2.0, false},
                   {"Sees", 1.0, true},
                   {"Eyes", 0.7, true},
                   {"Note", 2.6, false}};
  for (const sight::ViewRow& v : r.views) {
    table.rows.push_back({text(v.name), cell(v.seen_share),
                          Cell{fmt::format("{}", v.eyes), v.eyes * 1.0, Mark::none}, text(v.note)});
  }
  table.note = "Share of the usable ground, at the animal's eye height.";
  if (!table.rows.empty()) chapter.blocks.push_back(table);
}

void add_houses(Chapter& chapter, const Sources& sources) {
  const houses::Result& r = *sources.results.houses;
  Table table;
  table.file = "houses";
  table.title = "Houses";
  table.columns = {{"House", 1.5, false}, {"Floor", 0.8, true},    {"Height", 0.8, true},
                   {"Volume", 0.8, true}, {"Held at", 1.1, false}, {"Hides", 0.6, true},
                   {"Faults", 3.0, false}};
  for (const houses::Row& h : r.list) {
    std::string faults;
    for (const std::string& fault : h.faults) faults += (faults.empty() ? "" : "; ") + fault;
    const std::string held =
        h.low_c && h.high_c ? fmt::format("{:g} to {:g} °C", *h.low_c, *h.high_c) : "not stated";
    table.rows.push_back(
        {text(h.name), cell(h.floor_m2), cell(h.height_m), cell(h.volume_m3), text(held),
         Cell{fmt::format("{}", h.hides), h.hides * 1.0, Mark::none},
         faults.empty() ? text("none found", Mark::met) : text(faults, Mark::short_of)});
  }
  table.note = "m², m, m³. The drawn outline's area; wall thickness is not taken off.";
  chapter.blocks.push_back(table);
  if (r.hours_below_low) {
    chapter.blocks.push_back(
        Text{fmt::format(
                 "Of the {} hours of the climate file {} are below {} °C, the least the animal is "
                 "taken to bear outdoors; the coldest is {} °C. Air temperature only.",
                 r.climate_hours, number(*r.hours_below_low),
                 r.outdoor_low_c ? number(*r.outdoor_low_c) : "–",
                 r.coldest_c ? number(*r.coldest_c) : "–"),
             Tone::body});
  }
}

}  // namespace hummock::report
