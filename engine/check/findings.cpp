#include "engine/check/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/leap/rows/remedies.h"

namespace hummock {

const char* to_string(Severity weight) {
  switch (weight) {
    case Severity::way_out:
      return "way out";
    case Severity::short_of:
      return "short";
    case Severity::look:
      return "look";
  }
  return "";
}

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> lines{
      "Hummock is a calculation aid. It defers to the species' keepers and vet, to local codes and "
      "to licensed engineers.",
      "A figure that is met is no warranty: animals do what the model does not know. Confirm every "
      "species figure with those who keep the animal.",
      "The animal is a point in flight, sheets have no thickness, and nothing here checks "
      "strength, "
      "footing, wear or upkeep."};
  return lines;
}

namespace {

std::string place(const Model& model, Vec3 p) {
  const Vec3 s = model.to_site(p);
  return fmt::format("({:.2f}, {:.2f})", s.x, s.y);
}
std::string place(const Model& model, Vec2 p) {
  return place(model, Vec3{p.x, p.y, 0.0});
}
std::string quoted(const std::string& name) {
  return name.empty() ? name : "'" + name + "'";
}

using List = std::vector<Finding>;

// The route's own demand: the search's lower bound may be less by its resolution.
double hardest_step(const std::vector<leap::Step>& route) {
  double most = 0.0;
  for (const leap::Step& step : route) most = std::max(most, step.effort_m);
  return most;
}

// A leap no higher than this is told as part of the climb it belongs to.
constexpr double kStepOnly = 0.05;  // m

bool is_leap(const leap::Step& step) {
  return step.kind == leap::StepKind::leap && step.effort_m > kStepOnly;
}

// "climb over 'stone', 'wall'; leap from 'wall' to 'roof' (0.74 m)": walks and climbs run together.
std::string route_words(const std::vector<leap::Step>& route) {
  std::string words;
  std::string last_climbed;
  bool climbing = false;
  const auto part = [&](const std::string& text) { words += (words.empty() ? "" : "; ") + text; };
  for (const leap::Step& step : route) {
    if (is_leap(step)) {
      part(fmt::format("leap from {} to {} ({:.2f} m)", quoted(step.from_thing),
                       quoted(step.to_thing), step.effort_m));
      climbing = false;
    } else if (step.kind == leap::StepKind::walk && step.from_thing == step.to_thing) {
      continue;
    } else if (!climbing) {
      part("climb over " + quoted(step.to_thing));
      last_climbed = step.to_thing;
      climbing = true;
    } else if (step.to_thing != last_climbed) {
      words += ", " + quoted(step.to_thing);
      last_climbed = step.to_thing;
    }
  }
  return words;
}

void add_escape(const Model& model, const leap::Result& r, List& list) {
  if (!r.escape_leap_m || r.margin > 1.0 || r.route.empty()) return;
  Finding f;
  f.weight = Severity::way_out;
  f.analysis = "leap";
  f.thing = r.over;
  f.text = fmt::format(
      "the animal gets out {} ({}): {}. It needs a leap of {:.2f} m at least, {:.2f} m for "
      "certain, "
      "and has {:.2f} m",
      r.how, quoted(r.over), route_words(r.route), *r.escape_leap_m, hardest_step(r.route),
      model.site.species.leap_height.value);
  f.to_do = "raise the barrier there, or move or lower what it comes from";
  f.at = r.route.back().from;
  list.push_back(f);
}

std::string remedy(const leap::ObjectRow& row) {
  std::string words;
  if (row.move_m) {
    const double bearing = leap::bearing_deg(row.move_towards);
    words = fmt::format("move it {:.2f} m to the {} ({:.0f}° of the plan)", *row.move_m,
                        leap::compass_words(bearing), bearing);
  }
  if (row.lower_m) {
    words += words.empty() ? "" : ", or ";
    words += fmt::format("lower it by {:.2f} m", *row.lower_m);
  }
  return words.empty() ? "take it out" : words;
}

void add_objects(const leap::Result& r, List& list) {
  for (const leap::ObjectRow& row : r.objects) {
    const bool out = row.verdict == leap::Verdict::a_way_out;
    if (!out && row.verdict != leap::Verdict::tight) continue;
    Finding f;
    f.weight = out ? Severity::way_out : Severity::short_of;
    f.analysis = "leap";
    f.thing = row.name;
    f.text = out ? fmt::format("{} is a step over the barrier", quoted(row.name))
                 : fmt::format("{} stands too near the barrier for the margin asked for",
                               quoted(row.name));
    if (row.effort_to_boundary_m) {
      f.text += fmt::format(": {:.2f} m of leap from its top is enough, margin {:.2f}",
                            *row.effort_to_boundary_m, row.boundary_margin);
    }
    f.to_do = remedy(row);
    f.at = row.top;
    list.push_back(f);
  }
}

void add_roof_strike(const Model& model, const leap::Result& r, List& list) {
  if (!r.roof_clearance_m || *r.roof_clearance_m >= 0.0 || !r.roof_strike_at) return;
  list.push_back({Severity::look, "leap", "roof",
                  fmt::format("at full leap the animal strikes the roof at {}",
                              place(model, *r.roof_strike_at)),
                  "raise the roof there, or pad it", r.roof_strike_at});
}

std::string tunnel_words(const Model& model, const dig::Station& s) {
  if (s.least_length_m < 0.01) {
    return fmt::format("nothing in the ground stops a scrape under {} at {}", quoted(s.thing),
                       place(model, s.at));
  }
  return fmt::format("a tunnel {:.2f} m deep and {:.2f} m long passes {} of {} at {}",
                     s.least_depth_m, s.least_length_m, s.weakness, quoted(s.thing),
                     place(model, s.at));
}

void add_dig(const Model& model, const dig::Result& r, List& list) {
  if (!r.met && r.any_open) {
    const Species& animal = model.site.species;
    list.push_back(
        {Severity::way_out, "dig", r.worst.thing,
         fmt::format("{}; the animal digs {:.2f} m deep and {:.2f} m long",
                     tunnel_words(model, r.worst), animal.dig_depth.value, animal.dig_length.value),
         "bury mesh, lay an apron or a footing",
         geom::at_height(r.worst.at, geom::height_at(model.ground, r.worst.at))});
  }
  for (const dig::BurrowRow& row : r.burrows) {
    if (row.within) continue;
    list.push_back({Severity::way_out, "dig", row.name,
                    "the drawn burrow " + quoted(row.name) + " " + row.note,
                    "redraw it further from the barrier", std::nullopt});
  }
}

// How many further openings of the same kind in the same thing pass the head.
int more_like(const openings::Result& r, std::size_t k) {
  int more = 0;
  for (std::size_t i = k + 1; i < r.list.size(); ++i) {
    const openings::Opening& o = r.list[i];
    more += o.passes && o.what == r.list[k].what && o.thing == r.list[k].thing ? 1 : 0;
  }
  return more;
}

bool told_before(const openings::Result& r, std::size_t k) {
  for (std::size_t i = 0; i < k; ++i) {
    const openings::Opening& o = r.list[i];
    if (o.passes && o.what == r.list[k].what && o.thing == r.list[k].thing) return true;
  }
  return false;
}

void add_openings(const Model& model, const openings::Result& r, List& list) {
  for (std::size_t k = 0; k < r.list.size(); ++k) {
    const openings::Opening& o = r.list[k];
    if (!o.passes || told_before(r, k)) continue;
    const bool entrapment_gap = o.what == "pinch";
    std::string text =
        fmt::format("{} of {} at {} {} a ball of {:.0f} mm; the head passes {:.0f} mm", o.what,
                    quoted(o.thing), place(model, o.at), entrapment_gap ? "takes" : "lets through",
                    1000.0 * o.ball_m, 1000.0 * model.site.species.least_opening.value);
    if (const int more = more_like(r, k); more > 0) {
      text += fmt::format(" (and {} more place{} like it)", more, more == 1 ? "" : "s");
    }
    list.push_back({entrapment_gap ? Severity::look : Severity::way_out, "openings", o.thing, text,
                    entrapment_gap ? "open the gap or close it: an animal may wedge" : "close it",
                    o.at});
  }
}

void add_entry(const entry::Result& r, List& list) {
  for (const entry::GateRow& g : r.gates) {
    for (const std::string& fault : g.faults) {
      list.push_back({g.one_open_door_escapes ? Severity::way_out : Severity::short_of, "entry",
                      g.name, quoted(g.name) + ": " + fault, "", g.at});
    }
  }
}

void add_burrows(const burrows::Result& r, List& list) {
  for (const burrows::DrawnRow& row : r.drawn) {
    const bool hot = row.kind == "burrow" && row.as_spot.shade_11_15 < 0.5;
    if (!hot && row.as_spot.ponding_m <= 0.0) continue;
    list.push_back({Severity::look, "burrows", row.name, row.words, "choose one of the spots named",
                    Vec3{row.at.x, row.at.y, 0.0}});
  }
}

void add_water(const Model& model, const water::Result& r, List& list) {
  for (const water::BasinRow& b : r.basins) {
    if (!b.holds_water) {
      list.push_back({Severity::short_of, "water", b.name,
                      quoted(b.name) + ": the ground does not hold its water at the level drawn",
                      "lower the level, or dig the basin", std::nullopt});
    }
    if (b.can_climb_out) continue;
    list.push_back({Severity::look, "water", b.name,
                    fmt::format("{}: no side is flatter than {:.0f}°, the animal may not climb out",
                                quoted(b.name), b.easiest_side_deg),
                    "lay a ramp", std::nullopt});
  }
  for (const water::Pond& p : r.ponds) {
    if (p.drained || p.depth_m < 0.02 || p.volume_m3 < 0.01) continue;
    list.push_back({Severity::look, "water", "",
                    fmt::format("rain ponds {:.2f} m deep over {:.1f} m² at {}", p.depth_m,
                                p.area_m2, place(model, p.at)),
                    "fill, drain, or make it a wanted pool", Vec3{p.at.x, p.at.y, 0.0}});
    if (&p - r.ponds.data() >= 2) break;
  }
}

void add_earthworks(const earthworks::Result& r, List& list) {
  if (r.too_steep_area_m2 < 0.05) return;
  list.push_back({Severity::look, "earthworks", "",
                  fmt::format("{:.1f} m² of ground are steeper than the soil holds ({:.0f}°, {})",
                              r.too_steep_area_m2, r.repose_deg, r.repose_source),
                  "flatten, terrace or retain it", std::nullopt});
}

void add_houses(const houses::Result& r, List& list) {
  for (const houses::Row& row : r.list) {
    for (const std::string& fault : row.faults) {
      list.push_back({Severity::short_of, "houses", row.name, quoted(row.name) + ": " + fault, "",
                      std::nullopt});
    }
  }
}

void add_brief(const CheckResults& results, List& list) {
  for (const BriefRow& row : results.brief) {
    if (row.met == Met::not_checked && row.note != "not asked for") {
      list.push_back({Severity::look, "brief", row.what,
                      row.what + " is asked for and could not be checked: " + row.note, "",
                      std::nullopt});
    }
    if (row.met != Met::short_of) continue;
    std::string text =
        row.value ? fmt::format("{} is {:.4g}, {} is asked for", row.what, *row.value, row.required)
                  : fmt::format("{} has no value, {} is asked for", row.what, row.required);
    if (!row.where.empty()) text += " (" + row.where + ")";
    list.push_back({Severity::short_of, "brief", row.what, text, row.note, std::nullopt});
  }
}

}  // namespace

std::vector<Finding> findings(const Model& model, const CheckResults& results) {
  List list;
  if (results.leap) {
    add_escape(model, *results.leap, list);
    add_objects(*results.leap, list);
    add_roof_strike(model, *results.leap, list);
  }
  if (results.dig) add_dig(model, *results.dig, list);
  if (results.openings) add_openings(model, *results.openings, list);
  if (results.entry) add_entry(*results.entry, list);
  add_brief(results, list);
  if (results.houses) add_houses(*results.houses, list);
  if (results.burrows) add_burrows(*results.burrows, list);
  if (results.water) add_water(model, *results.water, list);
  if (results.earthworks) add_earthworks(*results.earthworks, list);
  std::stable_sort(list.begin(), list.end(),
                   [](const Finding& a, const Finding& b) { return a.weight < b.weight; });
  return list;
}

namespace {

struct Count {
  int met = 0, short_of = 0, not_checked = 0;
};
Count count(const std::vector<BriefRow>& rows) {
  Count c;
  for (const BriefRow& row : rows) {
    if (row.met == Met::met) ++c.met;
    if (row.met == Met::short_of) ++c.short_of;
    if (row.met == Met::not_checked) ++c.not_checked;
  }
  return c;
}

}  // namespace

std::string verdict_sentence(const Model& model, const CheckResults& results) {
  const Count c = count(results.brief);
  const int all = c.met + c.short_of + c.not_checked;
  std::string words;
  if (all == 0) {
    words = "No requirement was given, so nothing is judged";
  } else if (c.short_of == 0) {
    words = fmt::format("The design meets {} of its {} requirements", c.met, all);
  } else {
    words = fmt::format("The design is short of {} of its {} requirements", c.short_of, all);
  }
  if (c.not_checked > 0) words += fmt::format("; {} could not be checked", c.not_checked);
  int ways = 0;
  for (const Finding& f : findings(model, results)) ways += f.weight == Severity::way_out ? 1 : 0;
  if (ways > 0) {
    words += fmt::format("; {} found that an animal could leave by",
                         ways == 1 ? "one place was" : fmt::format("{} places were", ways));
  }
  return words + ".";
}

}  // namespace hummock
