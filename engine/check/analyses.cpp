#include "engine/check/analyses.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "engine/brief/asked.h"
#include "engine/burrows/burrows_json.h"
#include "engine/check/layers.h"
#include "engine/check/own_analysis.h"
#include "engine/check/rests_on_body.h"
#include "engine/dig/dig_json.h"
#include "engine/dig/rests_on.h"
#include "engine/earthworks/earthworks_json.h"
#include "engine/entry/entry_json.h"
#include "engine/entry/rests_on.h"
#include "engine/grammar/tables.h"
#include "engine/houses/houses_json.h"
#include "engine/leap/rows/leap_json.h"
#include "engine/leap/rows/rests_on.h"
#include "engine/leap/rows/roof_rests_on.h"
#include "engine/openings/openings_json.h"
#include "engine/openings/rests_on.h"
#include "engine/quantities/quantities_json.h"
#include "engine/relief/relief_json.h"
#include "engine/service/service_json.h"
#include "engine/shade/shade_json.h"
#include "engine/sight/sight_json.h"
#include "engine/space/space_json.h"
#include "engine/stations/stations_json.h"
#include "engine/surfaces/surfaces_json.h"
#include "engine/water/water_json.h"

namespace hummock {
namespace {

using R = CheckResults;

// Fills in what follows from the member alone.
template <auto Member>
Analysis row(AnalysisInfo info, AnalysisWork work) {
  Analysis a{std::move(info), std::move(work)};
  a.make_place = [](R&) {};
  a.there = [](const R& r) { return (r.*Member).has_value(); };
  a.take_over = [](R& into, const R& from) { into.*Member = from.*Member; };
  a.to_json = [](const R& r, const Model& m) { return to_json(*(r.*Member), m); };
  a.add_figures = [](const R& r, const Model& m, Figures& f) { add_figures(*(r.*Member), m, f); };
  a.add_findings = [](const R& r, const Model& m, FindingList& list) {
    if constexpr (requires { add_findings(*(r.*Member), m, list); }) {
      add_findings(*(r.*Member), m, list);
    }
  };
  a.look_at = [](const R& r, const Model& m) -> std::optional<LookAt> {
    if constexpr (requires { look_at(*(r.*Member), m); }) {
      return look_at(*(r.*Member), m);
    } else {
      return std::nullopt;
    }
  };
  a.chapter = [](const R&, const Model&) { return PlainTables{}; };
  return a;
}

template <class Result>
Figures figures_in(const Result& result, const Model& m) {
  Figures figures;
  add_figures(result, m, figures);
  return figures;
}

std::optional<NotRun> never(const Site&) {
  return std::nullopt;
}
std::optional<NotRun> needs_place(const Site& s) {
  return s.place ? std::nullopt : std::optional(NotRun::no_place);
}
std::optional<NotRun> needs_gate_or_door(const Site& s) {
  const bool door = std::any_of(s.houses.begin(), s.houses.end(),
                                [](const House& house) { return house.door.has_value(); });
  return s.boundary.gates.empty() && !door ? std::optional(NotRun::no_gate) : std::nullopt;
}
std::optional<NotRun> needs_viewing(const Site& s) {
  return sight::anyone_looks(s) ? std::nullopt : std::optional(NotRun::no_viewing);
}
// Cold hours without a house are a fault, so a climate alone is enough.
std::optional<NotRun> needs_house_or_climate(const Site& s) {
  return s.houses.empty() && s.climate.empty() ? std::optional(NotRun::no_house) : std::nullopt;
}

// The one figure that needs every step of the day.
shade::Steps steps_asked(const Site& site) {
  for (const Asked& asked : rows_asked(site))
    if (asked.row->what == "shade.shaded_share_least") return shade::Steps::all;
  return shade::Steps::hot;
}

houses::Result analyse_houses(const Model& m) {
  if (m.site.climate.empty()) return houses::analyse(m);
  std::vector<InputFile> read;
  houses::Result result = houses::analyse(m, houses::climate_of(m.site, &read));
  result.read = std::move(read);
  return result;
}

std::vector<Analysis> made() {
  using M = const Model&;
  using P = const Progress&;
  return {
      row<&R::space>({.name = "space",
                      .question = "Is there enough room?",
                      .group = "room",
                      .explained = "engine/space/space.h",
                      .depends_on = {"ground", "boundary", "roof", "object", "den", "house",
                                     "viewing", "water", "leap", "species"}},
                     {.cannot = never,
                      .figures = space::figure_rows,
                      .run = [](M m, R& r, P) { r.space = space::analyse(m); },
                      .rests_on =
                          [](M m, const R& r, P) {
                            return rests_on_body(m, "space", figures_in(*r.space, m), [&](M c) {
                              return figures_in(space::with_another_body(c, *r.space), c);
                            });
                          },
                      .work = 3}),
      row<&R::relief>(
          {.name = "relief",
           .question = "How uneven is the ground?",
           .group = "ground",
           .explained = "engine/relief/relief.h",
           .depends_on = {"ground", "boundary", "water"}},
          {.layers = relief_layers(),
           .cannot = never,
           .figures = relief::figure_rows,
           .run = [](M m, R& r, P) { r.relief = relief::analyse(m, r.settings.relief); }}),
      own_of_body<surfaces::analyse>(surfaces::about(), surfaces::figure_rows, surfaces::cannot),
      own_of_body<stations::analyse>(stations::about(), stations::figure_rows, stations::cannot),
      row<&R::leap>({.name = "leap",
                     .question = "Can it get out over the barrier?",
                     .group = "boundary",
                     .explained = "engine/leap/leap.h",
                     .depends_on = {"ground", "boundary", "roof", "object", "den", "house", "water",
                                    "leap", "species"}},
                    {.layers = leap_layers(),
                     .cannot = never,
                     .figures = leap::figure_rows,
                     .run = [](M m, R& r, P p) { r.leap = leap::analyse(m, r.settings.leap, p); },
                     .rests_on =
                         [](M m, const R& r, P p) {
                           RestsOn rests = leap::what_it_rests_on(m, r.settings.leap, *r.leap, p);
                           rests.besides.push_back(
                               leap::what_the_roof_gap_rests_on(m, r.settings.leap, *r.leap, p));
                           return rests;
                         },
                     .work = 12}),
      row<&R::dig>(
          {.name = "dig",
           .question = "Can it dig its way out?",
           .group = "below-ground",
           .explained = "engine/dig/dig.h",
           .cost = Cost::slow,
           .depends_on = {"ground", "boundary", "house", "burrow", "species"}},
          {.cannot = never,
           .figures = dig::figure_rows,
           .run = [](M m, R& r, P p) { r.dig = dig::analyse(m, r.settings.dig, p); },
           .rests_on = [](M m, const R& r,
                          P p) { return dig::what_it_rests_on(m, r.settings.dig, *r.dig, p); },
           .work = 4}),
      row<&R::openings>(
          {.name = "openings",
           .question = "Can it get out through the barrier?",
           .group = "boundary",
           .explained = "engine/openings/openings.h",
           .depends_on = {"ground", "boundary", "roof", "object", "den", "house", "species"}},
          {.cannot = never,
           .figures = openings::figure_rows,
           .run = [](M m, R& r, P) { r.openings = openings::analyse(m); },
           .rests_on = [](M m, const R& r,
                          P) { return openings::what_it_rests_on(m, *r.openings); },
           .work = 2}),
      row<&R::entry>({.name = "entry",
                      .question = "Can people come and go without letting an animal out?",
                      .group = "entry",
                      .explained = "engine/entry/entry.h",
                      .depends_on = {"ground", "boundary", "roof", "object", "planting", "den",
                                     "house", "surrounding", "water", "species"}},
                     {.cannot = needs_gate_or_door,
                      .figures = entry::figure_rows,
                      .run = [](M m, R& r, P) { r.entry = entry::analyse(m, r.settings.entry); },
                      .rests_on =
                          [](M m, const R& r, P p) {
                            return entry::what_it_rests_on(m, r.settings.entry, *r.entry, p);
                          },
                      .work = 3}),
      own<service::analyse>(service::about(), service::figure_rows, service::cannot),
      row<&R::shade>(
          {.name = "shade",
           .question = "Can every animal choose between sun and shade?",
           .group = "sun-and-shade",
           .explained = "engine/shade/shade.h",
           .cost = Cost::slow,
           .depends_on = {"place", "ground", "boundary", "roof", "object", "planting", "den",
                          "house", "surrounding", "water", "leap", "species", "animals"}},
          {.layers = shade_layers(),
           .cannot = needs_place,
           .figures = shade::figure_rows,
           .run = [](M m, R& r, P p) { r.shade = shade::analyse(m, r.settings.shade, p); },
           .rests_on =
               [](M m, const R& r, P p) {
                 return rests_on_body(m, "shade", figures_in(*r.shade, m), [&](M c) {
                   return figures_in(shade::with_another_body(c, r.settings.shade, *r.shade,
                                                              steps_asked(m.site), p),
                                     c);
                 });
               },
           .work = 20}),
      row<&R::sight>(
          {.name = "sight",
           .question = "Can an animal be where nobody sees it?",
           .group = "hiding",
           .explained = "engine/sight/sight.h",
           .cost = Cost::slow,
           .depends_on = {"ground", "boundary", "roof", "object", "planting", "den", "house",
                          "surrounding", "viewing", "water", "leap", "species"}},
          {.layers = sight_layers(),
           .cannot = needs_viewing,
           .figures = sight::figure_rows,
           .run = [](M m, R& r, P p) { r.sight = sight::analyse(m, r.settings.sight, p); },
           .rests_on =
               [](M m, const R& r, P p) {
                 return rests_on_body(m, "sight", figures_in(*r.sight, m), [&](M c) {
                   sight::Settings settings = r.settings.sight;
                   settings.screens = false;
                   return figures_in(sight::analyse(c, settings, p), c);
                 });
               },
           .work = 4}),
      row<&R::water>({.name = "water",
                      .question = "Is the water safe, and does rain drain?",
                      .group = "water",
                      .explained = "engine/water/water.h",
                      .depends_on = {"ground", "boundary", "water", "species"}},
                     {.layers = water_layers(),
                      .cannot = never,
                      .figures = water::figure_rows,
                      .run = [](M m, R& r, P) { r.water = water::analyse(m); },
                      .rests_on =
                          [](M m, const R& r, P) {
                            return rests_on_body(m, "water", figures_in(*r.water, m), [](M c) {
                              return figures_in(water::analyse(c), c);
                            });
                          }}),
      row<&R::earthworks>({.name = "earthworks",
                           .question = "What earth must be moved?",
                           .group = "ground",
                           .explained = "engine/earthworks/earthworks.h",
                           .depends_on = {"ground", "boundary", "water"}},
                          {.layers = earthworks_layers(),
                           .cannot = never,
                           .figures = earthworks::figure_rows,
                           .run = [](M m, R& r, P) { r.earthworks = earthworks::analyse(m); }}),
      row<&R::houses>({.name = "houses",
                       .question = "Is there a house for the weather it cannot bear?",
                       .group = "indoors",
                       .explained = "engine/houses/houses.h",
                       .depends_on = {"ground", "boundary", "roof", "object", "den", "house",
                                      "water", "leap", "climate", "species"}},
                      {.cannot = needs_house_or_climate,
                       .figures = houses::figure_rows,
                       .run = [](M m, R& r, P) { r.houses = analyse_houses(m); },
                       .rests_on =
                           [](M m, const R& r, P) {
                             return rests_on_body(m, "houses", figures_in(*r.houses, m), [](M c) {
                               return figures_in(analyse_houses(c), c);
                             });
                           },
                       .work = 2}),
      row<&R::burrows>(
          {.name = "burrows",
           .question = "Where would it den?",
           .group = "below-ground",
           .explained = "engine/burrows/burrows.h",
           .cost = Cost::slow,
           .after = {"shade", "water"},
           .depends_on = {"place", "ground", "boundary", "object", "den", "burrow", "house",
                          "water", "siting", "leap", "species"}},
          {.layers = burrow_layers(),
           .cannot = needs_place,
           .figures = burrows::figure_rows,
           .run = [](M m, R& r, P) { r.burrows = burrows::analyse(m, *r.shade, *r.water); },
           .work = 4}),
      row<&R::quantities>({.name = "quantities",
                           .question = "What must be bought and moved?",
                           .group = "boundary",
                           .explained = "engine/quantities/quantities.h",
                           .depends_on = {"ground", "boundary", "roof", "object", "planting", "den",
                                          "burrow", "water", "house"}},
                          {.cannot = never,
                           .figures = quantities::figure_rows,
                           .run = [](M m, R& r, P) { r.quantities = quantities::schedule(m); }}),
  };
}

}  // namespace

const std::vector<Analysis>& analyses() {
  static const std::vector<Analysis> list = made();
  return list;
}

const Analysis* find_analysis(const std::string& name) {
  for (const Analysis& a : analyses()) {
    if (a.name == name) return &a;
  }
  return nullptr;
}

const std::vector<std::string>& analysis_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const Analysis& a : analyses()) list.push_back(a.name);
    return list;
  }();
  return names;
}

const grammar::Words& grammar::figure_groups() {
  return analysis_names();
}

std::string analysis_of(const std::string& key) {
  return key.substr(0, key.find('.'));
}

void take_over_results(CheckResults& into, const CheckResults& from,
                       const std::set<std::string>& names) {
  for (const Analysis& a : analyses()) {
    if (names.count(a.name) == 0) continue;
    a.take_over(into, from);
    into.not_run.erase(a.name);
    into.rests_on.erase(a.name);
    if (const auto why = from.not_run.find(a.name); why != from.not_run.end()) {
      into.not_run[a.name] = why->second;
    }
    if (const auto rests = from.rests_on.find(a.name); rests != from.rests_on.end()) {
      into.rests_on[a.name] = rests->second;
    }
  }
}

}  // namespace hummock
