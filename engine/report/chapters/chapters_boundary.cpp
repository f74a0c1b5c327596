// Boundary (over and through it), entry and below ground.
#include <fmt/format.h>
#include <tbb/parallel_invoke.h>

#include <cmath>
#include <utility>

#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/figures/plan_figures.h"
#include "engine/report/figures/section_figures.h"

namespace hummock::report {
namespace {

// A thing's own name, or that it has none.
std::string named(const std::string& name) {
  return name.empty() ? "the ground" : draw::isolated(name);
}

Text escape_words(const Model& model, const leap::Result& r) {
  const Sourced<double>& leap = model.site.species.leap_height;
  const std::string figure = figure_words(leap);
  std::string words;
  if (r.escape_leap_m) {
    words = fmt::format(
        "The easiest way out found goes {} ({}) and needs a leap of {} m. The animal's figure is "
        "{}: "
        "margin {}. The answer is never above the true demand and understates it by at most {} m.",
        r.how, named(r.over), number(*r.escape_leap_m), figure, number(r.margin),
        number(r.resolution_bound_m));
  } else {
    words = fmt::format(
        "No way out was found with leaps of up to {} m. The animal's figure is {}: margin at least "
        "{}.",
        number(r.bounded_below_m), figure, number(r.margin));
  }
  if (!r.complete) words += " The search stopped early; the figures are bounds from below.";
  return {words, Tone::lead};
}

Mark mark_of_verdict(leap::Verdict verdict) {
  switch (verdict) {
    case leap::Verdict::a_way_out:
      return Mark::way_out;
    case leap::Verdict::tight:
      return Mark::short_of;
    case leap::Verdict::clear:
    case leap::Verdict::cannot_be_reached:
      return Mark::met;
  }
  return Mark::none;
}

// "clears by 0.41 m for the figure 1.15 m (bar), a trial": what is known, under which figure.
std::string clearance_words(const Model& model, const leap::ObjectRow& row) {
  const std::string figure = figure_words(model.site.species.leap_height);
  if (row.verdict == leap::Verdict::cannot_be_reached) {
    return fmt::format("cannot be gained: {} m up needs {} m; for the figure {}", number(row.top_m),
                       number(row.required_leap_m), figure);
  }
  if (std::isfinite(row.boundary_clearance_m) && row.boundary_clearance_m >= 0.0 &&
      row.verdict != leap::Verdict::a_way_out) {
    return fmt::format("clears by {:.2f} m for the figure {}", row.boundary_clearance_m, figure);
  }
  if (row.verdict == leap::Verdict::a_way_out) {
    return fmt::format("reaches over {} for the figure {}", named(row.over), figure);
  }
  return fmt::format("for the figure {}", figure);
}

std::string remedy(const leap::ObjectRow& row) {
  std::string words;
  if (row.move_m) {
    const double bearing = std::fmod(
        std::atan2(row.move_towards.x, row.move_towards.y) / geom::kDegree + 360.0, 360.0);
    words = fmt::format("move {:.2f} m towards {:.0f}° of the plan", *row.move_m, bearing);
  }
  if (row.lower_m) {
    words += fmt::format("{}lower by {:.2f} m", words.empty() ? "" : ", or ", *row.lower_m);
  }
  return words;
}

Table objects_table(const Model& model, const leap::Result& r) {
  Table table;
  table.file = "leap-objects";
  table.title = "What stands in the yard, as a step";
  table.columns = {{"Standing", 1.4, false},  {"Thing", 1.6, false},        {"Top", 0.8, true},
                   {"To gain it", 0.9, true}, {"To the fence", 1.0, true},  {"Margin", 0.8, true},
                   {"In words", 3.4, false},  {"What would do", 2.0, false}};
  for (const leap::ObjectRow& row : r.objects) {
    table.rows.push_back({text(leap::to_string(row.verdict), mark_of_verdict(row.verdict)),
                          text(row.name), cell(row.top_m), cell(row.required_leap_m),
                          cell(row.effort_to_boundary_m), cell(row.boundary_margin),
                          text(clearance_words(model, row)), text(remedy(row))});
  }
  table.note =
      "Metres. Top: above the ground under it. To gain it: least leap height that comes to its "
      "top. "
      "To the fence: least leap height from it over the barrier; – is beyond the search's limit. "
      "Margin: that ÷ the animal's leap height.";
  return table;
}

Table ways_table(const leap::Result& r) {
  Table table;
  table.file = "leap-ways";
  table.title = "Every stretch of the barrier, the easiest first";
  table.columns = {{"Standing", 1.2, false},
                   {"Over", 2.0, false},
                   {"How", 2.2, false},
                   {"Last leap from", 2.0, false},
                   {"Needs", 1.0, true}};
  for (const leap::WayRow& row : r.ways) {
    table.rows.push_back(
        {row.within_leap ? text("within its leap", Mark::way_out) : text("beyond it", Mark::met),
         text(row.over), text(row.how), text(named(row.from)), cell(row.required_leap_m)});
  }
  table.note =
      "Metres of leap height. Stretches that are not listed are beyond the search's limit.";
  return table;
}

Table route_table(const Model& model, const leap::Result& r) {
  Table table;
  table.file = "escape-route";
  table.title = "The easiest way out, step by step";
  table.columns = {{"Step", 0.6, true},  {"Kind", 0.8, false}, {"From", 2.0, false},
                   {"To", 2.0, false},   {"Rise", 0.8, true},  {"Run", 0.8, true},
                   {"Effort", 0.8, true}};
  int n = 0;
  for (const leap::Step& step : r.route) {
    const auto end = [&](const std::string& thing, Vec3 p) {
      return text(named(thing) + " " + place(model, p));
    };
    table.rows.push_back({Cell{fmt::format("{}", ++n), n * 1.0, {}},
                          text(leap::to_string(step.kind)), end(step.from_thing, step.from),
                          end(step.to_thing, step.to), cell(step.to.z - step.from.z),
                          cell(geom::distance(geom::xy(step.from), geom::xy(step.to))),
                          cell(step.effort_m)});
  }
  table.note = "Metres. Effort: the least leap height with which the flight is possible.";
  return table;
}

Table sweep_table(const leap::Result& r) {
  Table table;
  table.file = "leap-sweep";
  table.title = "If the animal is weaker or stronger than its figure";
  table.columns = {{"Leap height", 1.0, true},
                   {"Leap distance", 1.0, true},
                   {"Standing", 1.2, false},
                   {"Margin", 0.8, true},
                   {"Leaves by", 3.0, false}};
  for (const auto& row : r.sweep) {
    std::string ways;
    for (const std::string& way : row.ways_out) ways += (ways.empty() ? "" : ", ") + way;
    table.rows.push_back(
        {cell(row.leap_height_m), cell(row.leap_distance_m),
         row.escapes ? text("gets out", Mark::way_out) : text("no way out found", Mark::met),
         cell(row.margin), text(ways)});
  }
  table.note = "Metres. One row is the figure as given.";
  return table;
}

}  // namespace

void add_leap(Chapter& chapter, const Sources& sources) {
  const leap::Result& r = *sources.results.leap;
  chapter.blocks.push_back(escape_words(sources.model, r));
  if (const auto section = route_section(sources.model, r)) {
    chapter.blocks.push_back(Picture{*section});
  }
  if (!r.route.empty()) chapter.blocks.push_back(route_table(sources.model, r));
  if (!r.objects.empty()) chapter.blocks.push_back(objects_table(sources.model, r));
  if (!r.ways.empty()) chapter.blocks.push_back(ways_table(r));
  if (!r.sweep.empty()) chapter.blocks.push_back(sweep_table(r));
  if (!r.notes.empty()) chapter.blocks.push_back(Bullets{r.notes});
  const leap::Settings& settings = sources.results.settings.leap;
  Picture cap, demand;
  tbb::parallel_invoke(
      [&] { cap.figure = cap_plan(sources.model, settings); },
      [&] { demand.figure = required_leap_plan(sources.model, settings, sources.progress); });
  chapter.blocks.push_back(std::move(cap));
  chapter.blocks.push_back(std::move(demand));
}

namespace {

Table openings_table(const Model& model, const openings::Result& r) {
  Table table;
  table.file = "openings";
  table.title = "Openings through the barrier, the largest first";
  table.columns = {{"Standing", 1.3, false}, {"What", 1.4, false},         {"Where", 1.6, false},
                   {"Place", 1.4, false},    {"Passes a ball", 1.1, true}, {"Long", 0.8, true},
                   {"Note", 2.4, false}};
  for (const openings::Opening& o : r.list) {
    const bool entrapment_gap = !o.leads_out;
    table.rows.push_back({o.passes ? text(entrapment_gap ? "may wedge" : "lets it out",
                                          entrapment_gap ? Mark::look : Mark::way_out)
                                   : text("holds", Mark::met),
                          text(o.what), text(o.thing), text(place(model, o.at)), cell(o.ball_m),
                          cell(o.length_m), text(o.note)});
  }
  table.note = fmt::format(
      "Metres: diameter of the largest ball that passes (exact for the meshes as drawn). The head "
      "passes {} m ({}).",
      number(model.site.species.least_opening.value), model.site.species.least_opening.source);
  return table;
}

}  // namespace

void add_openings(Chapter& chapter, const Sources& sources) {
  chapter.blocks.push_back(openings_table(sources.model, *sources.results.openings));
}

void add_entry(Chapter& chapter, const Sources& sources) {
  Table table;
  table.file = "entry";
  table.title = "Gates and doors";
  table.columns = {{"Standing", 1.1, false},      {"Gate", 1.5, false},
                   {"Second gate", 0.9, false},   {"Depth", 0.8, true},
                   {"Needed", 0.8, true},         {"Window", 0.8, false},
                   {"One open door", 1.8, false}, {"Faults", 3.2, false}};
  for (const entry::GateRow& g : sources.results.entry->gates) {
    std::string faults;
    for (const std::string& fault : g.faults) faults += (faults.empty() ? "" : "; ") + fault;
    table.rows.push_back(
        {g.met ? text("met", Mark::met) : text("short", Mark::short_of), text(g.name),
         text(g.second_gate ? "yes" : "no"), cell(g.vestibule_depth_m), cell(g.needed_depth_m),
         text(g.window ? "yes" : "no"),
         text(g.one_open_door_escapes ? "lets it out to " + g.leads_to : "keeps it in"),
         text(faults.empty() ? "none found" : faults)});
  }
  table.note = fmt::format(
      "Metres. Depth of the vestibule against what a keeper with a barrow needs between two doors "
      "({} m, common practice, no source). Where an open door leads is found on the model by "
      "spreading a body over the ground outside.",
      number(entry::Settings{}.keeper_and_barrow));
  chapter.blocks.push_back(table);
}

namespace {

void add_digging(Chapter& chapter, const Sources& sources) {
  const Model& model = sources.model;
  const dig::Result& r = *sources.results.dig;
  const Species& animal = model.site.species;
  const std::string digs = fmt::format("The animal digs {} m deep ({}) and {} m long ({}).",
                                       number(animal.dig_depth.value), animal.dig_depth.source,
                                       number(animal.dig_length.value), animal.dig_length.source);
  chapter.blocks.push_back(Text{
      r.any_open ? fmt::format("Shortest tunnel that passes under: {} m; shallowest: {} m deep. {}",
                               number(r.least_length_m), number(r.least_depth_m), digs)
                 : "No tunnel passes under: rock, liner or footing closes every station. " + digs,
      Tone::lead});
  if (const auto section = dig_section(model, r)) chapter.blocks.push_back(Picture{*section});
  Table table;
  table.file = "dig";
  table.title = "The weakest station of every stretch";
  table.columns = {{"Standing", 1.2, false},   {"Stretch", 1.6, false}, {"Place", 1.4, false},
                   {"Least depth", 0.9, true}, {"Shortest", 0.9, true}, {"How", 2.6, false}};
  for (const dig::Station& s : r.worst_of_each) {
    table.rows.push_back({s.fails ? text("dug out", Mark::way_out) : text("holds", Mark::met),
                          text(s.thing), text(place(model, s.at)),
                          s.closed ? text("closed") : cell(s.least_depth_m),
                          s.closed ? text("closed") : cell(s.least_length_m), text(s.weakness)});
  }
  table.note = fmt::format(
      "Metres. Stations every {:g} m along the fence; shortest path in the upright section across "
      "it, round everything buried. A stretch fails where one tunnel is within both figures.",
      dig::Settings{}.station_spacing);
  chapter.blocks.push_back(table);
}

}  // namespace

void add_burrows(Chapter& chapter, const Sources& sources) {
  const burrows::Result& r = *sources.results.burrows;
  Table table;
  table.file = "burrow-spots";
  table.title = "Best spots for a burrow";
  table.columns = {{"Place", 1.3, false}, {"Score", 0.7, true}, {"Shade 11–15 h", 0.9, true},
                   {"Soil", 0.8, true},   {"Slope", 0.7, true}, {"To the fence", 0.9, true},
                   {"Why", 3.4, false}};
  for (const burrows::BurrowSite& s : r.best) {
    std::string why;
    for (const std::string& reason : s.reasons) why += (why.empty() ? "" : "; ") + reason;
    table.rows.push_back({text(place(sources.model, s.at)), cell(s.score), cell(s.shade_11_15),
                          s.soil_m ? cell(*s.soil_m) : text("no limit"), cell(s.slope_deg),
                          cell(s.fence_m), text(why)});
  }
  table.note = "Score 0 to 1, shade a share, slope in degrees, the rest in metres.";
  if (!table.rows.empty()) chapter.blocks.push_back(table);
  Bullets drawn;
  for (const burrows::DrawnRow& row : r.drawn) drawn.lines.push_back(row.words);
  if (!drawn.lines.empty()) chapter.blocks.push_back(drawn);
  chapter.blocks.push_back(Picture{burrow_plan(sources.model, r)});
}

void add_dig(Chapter& chapter, const Sources& sources) {
  add_digging(chapter, sources);
  Bullets notes;
  for (const dig::BurrowRow& row : sources.results.dig->burrows) {
    notes.lines.push_back(
        fmt::format("Drawn burrow {}: {}; {} m from the barrier.", draw::isolated(row.name),
                    row.within ? "stays within" : row.note, number(row.distance_to_barrier_m)));
  }
  if (!notes.lines.empty()) chapter.blocks.push_back(notes);
}

}  // namespace hummock::report
