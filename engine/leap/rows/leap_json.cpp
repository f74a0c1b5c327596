#include "engine/leap/rows/leap_json.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

namespace hummock::leap {
namespace {

using nlohmann::json;

json number(double v) {
  return std::isfinite(v) ? json(v) : json(nullptr);
}
json number(const std::optional<double>& v) {
  return v ? number(*v) : json(nullptr);
}
json place(const Model& model, Vec3 p) {
  const Vec3 s = model.to_site(p);
  return json::array({s.x, s.y, s.z});
}

json step_json(const Step& step, const Model& model) {
  return {{"from", place(model, step.from)}, {"to", place(model, step.to)},
          {"kind", to_string(step.kind)},    {"effort_m", step.effort_m},
          {"from_thing", step.from_thing},   {"to_thing", step.to_thing}};
}

const char* to_string(Shift::Kind kind) {
  return kind == Shift::Kind::move ? "move" : "lower";
}

json shift_json(const Shift& shift) {
  json out = {{"kind", to_string(shift.kind)},
              {"by_m", shift.by_m},
              {"proven", shift.proven},
              {"share_only", shift.share_only}};
  out["bearing_deg"] = shift.kind == Shift::Kind::move ? json(shift.bearing_deg) : json(nullptr);
  return out;
}

json object_json(const ObjectRow& row, const Model& model) {
  json out = {{"name", row.name},
              {"top", place(model, row.top)},
              {"top_m", row.top_m},
              {"reachable", row.reachable},
              {"demand_m", number(row.required_leap_m)},
              {"effort_to_boundary_m", number(row.effort_to_boundary_m)},
              {"effort_out_m", number(row.effort_out_m)},
              {"boundary_margin", number(row.boundary_margin)},
              {"clearance_m", number(row.clearance_m)},
              {"complete", row.complete},
              {"boundary_clearance_m", number(row.boundary_clearance_m)},
              {"effort_to_overhang_tip_m", number(row.effort_to_overhang_tip_m)},
              {"effort_to_roof_m", number(row.effort_to_roof_m)},
              {"roof_clearance_m", number(row.roof_clearance_m)},
              {"verdict", to_string(row.verdict)},
              {"over", row.over},
              {"move_m", number(row.move_m)},
              {"lower_m", number(row.lower_m)}};
  out["remedies"] = json::array();
  for (const Shift& shift : row.remedies) out["remedies"].push_back(shift_json(shift));
  out["remedy_sought"] = row.remedy_sought;
  if (row.move_m) out["move_towards"] = {row.move_towards.x, row.move_towards.y};
  return out;
}

json way_json(const WayRow& row) {
  return {{"over", row.over},
          {"how", row.how},
          {"from", row.from},
          {"demand_m", row.required_leap_m},
          {"within_leap", row.within_leap}};
}

json sweep_json(const Result::SweepRow& row) {
  return {{"leap_height_m", row.leap_height_m},
          {"leap_distance_m", row.leap_distance_m},
          {"escapes", row.escapes},
          {"margin", number(row.margin)},
          {"ways_out", row.ways_out}};
}

template <class List, class Write>
json list_json(const List& list, Write write) {
  json out = json::array();
  for (const auto& item : list) out.push_back(write(item));
  return out;
}

// The figure with the row it comes from: the least over all rows.
void add_least(Figures& figures, const char* key, const Result& result,
               std::optional<double> ObjectRow::*member) {
  const std::vector<ObjectRow>& rows = result.objects;
  Figure figure;
  figure.unbounded = true;
  // Nothing on its own says only that it is beyond the limit searched to.
  if (!rows.empty()) figure.bounded_below = result.bounded_below_m;
  for (const ObjectRow& row : rows) {
    const std::optional<double>& v = row.*member;
    if (!v || (figure.value && *figure.value <= *v)) continue;
    figure.value = v;
    figure.where = row.name;
    figure.unbounded = false;
  }
  figures[key] = figure;
}

// Things it leaves from, and stretches it leaves over from anything else: the ground above all.
int ways_out(const Result& result) {
  int n = 0;
  std::set<std::string> things;
  for (const ObjectRow& row : result.objects) {
    if (row.verdict != Verdict::a_way_out) continue;
    ++n;
    things.insert(row.name);
  }
  for (const WayRow& way : result.ways) n += way.within_leap && !things.contains(way.from) ? 1 : 0;
  return n;
}

}  // namespace

json to_json(const Result& r, const Model& model) {
  json out = {
      {"escape_demand_m", number(r.escape_leap_m)},
      {"bounded_below_m", r.bounded_below_m},
      {"resolution_bound_m", r.resolution_bound_m},
      {"margin", r.margin},
      {"over", r.over},
      {"how", r.how},
      {"living_area_m2", r.living_area_m2},
      {"roof_clearance_m", number(r.roof_clearance_m)},
      {"roof_strike_at", r.roof_strike_at ? place(model, *r.roof_strike_at) : json(nullptr)},
      {"complete", r.complete},
      {"notes", r.notes}};
  out["figure"] = {{"leap_height_m", model.site.species.leap_height.value},
                   {"leap_distance_m", model.site.species.leap_distance.value},
                   {"measures", model.site.species.leap_height.measures},
                   {"evidence", model.site.species.leap_height.evidence},
                   {"source", model.site.species.leap_height.source}};
  out["route"] = list_json(r.route, [&](const Step& s) { return step_json(s, model); });
  out["objects"] = list_json(r.objects, [&](const ObjectRow& o) { return object_json(o, model); });
  out["ways"] = list_json(r.ways, way_json);
  out["sweep"] = list_json(r.sweep, sweep_json);
  return out;
}

void add_figures(const Result& r, const Model&, Figures& figures) {
  const auto add = [&](const char* key, std::optional<double> value, const std::string& where) {
    Figure figure;
    figure.value = value;
    figure.where = where;
    figure.unbounded = !value.has_value();
    figures[key] = figure;
  };
  const std::string from = r.route.empty() ? "" : "from " + r.route.back().from_thing;
  const std::string where = r.over.empty() ? "" : from + " over " + r.over;
  add("leap.escape_demand_m", r.escape_leap_m, where);
  // Without an escape the margin is the bound searched to: at least that.
  add("leap.margin", r.margin, where);
  for (const char* key : {"leap.margin", "leap.escape_demand_m"}) {
    if (r.escape_leap_m && r.complete) break;
    Figure& figure = figures[key];
    figure.unbounded = true;
    figure.outcome = r.complete ? Outcome::bounded : Outcome::incomplete;
    figure.why = r.complete ? "searched no further" : "the search stopped there";
  }
  if (!r.escape_leap_m || !r.complete) {
    figures["leap.margin"].bounded_below = r.margin;
    figures["leap.escape_demand_m"].bounded_below = r.bounded_below_m;
  }
  add("leap.bounded_below_m", r.bounded_below_m, where);
  add("leap.roof_clearance_m", r.roof_clearance_m, "");
  add("leap.living_area_m2", r.living_area_m2, "");
  add("leap.ways_out", ways_out(r), "");
  if (!r.complete) {
    Figure& count = figures["leap.ways_out"];
    count.bounded_below = count.value;
    count.outcome = Outcome::incomplete;
    count.why = "the search stopped early";
  }
  add_least(figures, "leap.effort_to_boundary_m", r, &ObjectRow::effort_to_boundary_m);
  add_least(figures, "leap.effort_to_roof_m", r, &ObjectRow::effort_to_roof_m);
}

}  // namespace hummock::leap
