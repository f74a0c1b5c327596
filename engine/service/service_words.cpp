// What service is, and its result in a reviewer's words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/service/service_json.h"

namespace hummock::service {

AnalysisInfo about() {
  return {
      .name = "service",
      .question = "Can a keeper come with a barrow to every place that is tended?",
      .group = "entry",
      .explained = "engine/service/service.h",
      .cost = Cost::slow,
      .depends_on = {"ground", "boundary", "roof", "object", "planting", "den", "house",
                     "surrounding", "water", "species"},
      .model = fmt::format(
          "A barrow with its keeper is a disc {:g} m wide (34 Pa. Code 6.27) on the nodes of "
          "the ground. It starts at each gate that is wide enough and goes where the ground "
          "is no steeper than 1 in 6, dry, and free of solids; to the gate it comes from the edge "
          "of the modelled ground. Dens, houses and waters within {:g} m of it are come to. A "
          "gate or a place is shared that people on foot come to only where an animal may be: "
          "all of the yard, and houses it has a way into.",
          kBarrowWidth, kArm),
      .limits =
          "known to a cell of the ground; in the yard no headroom, no steps, no bridges or "
          "ramps; no soft ground; not what lies beyond the modelled ground, nor what stands "
          "in a house on the way; not that animals are shut away while people work."};
}

std::optional<NotRun> cannot(const Site& site) {
  return site.boundary.gates.empty() ? std::optional(NotRun::no_gate) : std::nullopt;
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"service.reached_area_m2", "ground a barrow comes to", "m²", 1, Better::more,
       "Plan area under a barrow's width, from the gates that are wide enough."},
      {"service.reached_share", "share of the yard a barrow comes to", "of 1", 2, Better::more,
       "The same over the plan area inside the boundary."},
      {"service.narrowest_gate_m", "narrowest gate", "m", 2, Better::more,
       "Least clear width of the boundary's gates."},
      {"service.gates_too_narrow", "gates too narrow for a barrow", "", 0, Better::less,
       "Gates of the boundary narrower than a barrow's runway."},
      {"service.cut_off_count", "tended places no barrow comes to", "", 0, Better::less,
       "Dens, houses and waters farther than an arm from ground a barrow comes to; where none is "
       "drawn, the ground of a yard that no barrow comes into."},
      {"service.shared_gates", "gates people come to only where an animal may be", "", 0,
       Better::less,
       "Gates of the boundary that nobody on foot comes to from outside, but through the yard or "
       "a house an animal has a way into, or not at all."},
      {"service.shared_places", "tended places people come to only where an animal may be", "", 0,
       Better::less,
       "Dens, houses and waters in the yard, but for houses without a way in for an animal to "
       "whose own door people come from outside. Animals shut away meanwhile count all the same."}};
  return rows;
}

namespace {

std::string away_words(const Place& p) {
  return std::isfinite(p.away_m)
             ? "the nearest ground a barrow comes to is " + plain_figure(p.away_m) + " m away"
             : std::string("a barrow gets onto no ground of the yard");
}

}  // namespace

void add_findings(const Result& result, const Model& model, FindingList& list) {
  for (const GateRow& g : result.gates) {
    if (!g.wide_enough || g.reaches) continue;
    std::string why;
    for (const std::string& fault : keepers::faults_of(g.barrow, "no barrow"))
      why += (why.empty() ? ": " : "; ") + fault;
    list.push_back({Severity::look, "service", g.name,
                    "at " + place_words(model, g.at) + " no barrow gets into the yard by " +
                        quoted(g.name) + why,
                    "", geom::at_height(g.at, geom::height_at(model.ground, g.at))});
  }
  for (const Place& p : result.places) {
    if (p.reached) continue;
    list.push_back({Severity::look, "service", p.name,
                    "at " + place_words(model, p.at) + " " + quoted(p.name) + " (" + p.kind +
                        ") cannot be come to with a barrow: " + away_words(p),
                    "leave a lane to it, or see that it is tended by hand",
                    geom::at_height(p.at, geom::height_at(model.ground, p.at))});
  }
}

PlainTables chapter(const Result& result, const Model& model) {
  PlainTable table;
  table.file = "service-places";
  table.title = "Places that are tended";
  table.columns = {"Place", "Kind", "Where", "Barrow", "Away, m"};
  for (const Place& p : result.places)
    table.rows.push_back({p.name, p.kind, place_words(model, p.at),
                          p.reached ? "comes to it" : "cut off",
                          std::isfinite(p.away_m) ? plain_figure(p.away_m) : "–"});
  table.note = about().limits;
  return table.rows.empty() ? PlainTables{} : PlainTables{table};
}

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  const auto cut_off = std::find_if(result.places.begin(), result.places.end(),
                                    [](const Place& p) { return !p.reached; });
  if (cut_off == result.places.end()) return std::nullopt;
  return LookAt{geom::at_height(cut_off->at, geom::height_at(model.ground, cut_off->at)), 3.0};
}

}  // namespace hummock::service
