// What stations is, and its result in a reviewer's words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/stations/stations_json.h"

namespace hummock::stations {
namespace {

const Station& station_of(const Model& model, const StationRow& row) {
  return model.site.stations[static_cast<std::size_t>(row.station)];
}

Finding about_station(const Model& model, const StationRow& row, Severity weight,
                      const std::string& text, const std::string& to_do) {
  const Station& s = station_of(model, row);
  return {weight,
          "stations",
          s.name,
          fmt::format("at {} {} ({}) {}", place_words(model, row.at), quoted(s.name),
                      word_of(static_cast<std::size_t>(s.kind)), text),
          to_do,
          row.at};
}

void add_place(const Model& model, const StationRow& row, FindingList& list) {
  const Station& s = station_of(model, row);
  if (!row.set_out)
    list.push_back(about_station(model, row, Severity::short_of,
                                 "is said to be on " + quoted(s.on) + " and is not over it",
                                 "put it over it, or leave out what it is on"));
  else if (!row.inside.empty())
    list.push_back(about_station(model, row, Severity::short_of, "lies in " + quoted(row.inside),
                                 "say on = " + quoted(row.inside) + ", or move it"));
  else if (is_used(s.kind) && !row.reached)
    list.push_back(about_station(model, row, Severity::look,
                                 fmt::format("is not come to: no place the animal is shown to be "
                                             "on is within {} m of it",
                                             plain_figure(s.reach)),
                                 "move it, or give the animal a way to it"));
}

std::string lamp_words(const StationRow& row) {
  if (*row.clearance_m == 0.0) return "has no guard, and the animal may touch it";
  return fmt::format("has no guard; the animal may come within {} m of it without a leap{}",
                     plain_figure(*row.clearance_m), row.leapt_at ? ", and may leap at it" : "");
}

void add_lamp(const Model& model, const StationRow& row, FindingList& list) {
  const Station& s = station_of(model, row);
  if (!row.clearance_m || s.guard) return;
  list.push_back(about_station(model, row, Severity::look, lamp_words(row), "give it a guard"));
}

std::string metres(double value) {
  return std::isfinite(value) ? plain_figure(value) : "–";
}

std::string come_to_words(const StationRow& row, StationKind kind) {
  if (!row.set_out) return "not over what it is on";
  if (!is_used(kind)) return "–";
  return row.reached ? "comes to it" : "not come to";
}

}  // namespace

AnalysisInfo about() {
  return {.name = "stations",
          .question = "Is what it needs set out where it comes to, and guests do not?",
          .group = "room",
          .explained = "engine/stations/stations.h",
          .depends_on = {"ground", "boundary", "roof", "object", "den", "house", "viewing", "water",
                         "station", "leap", "species", "animals"},
          .model = fmt::format(
              "A station is a point on the ground, on the top of a thing or in a house. The animal "
              "comes to it where a place of its own is within the station's reach of its standing "
              "body and nothing solid is between: ground it lives on, a house it goes into, or a "
              "top that holds its body and that it leaps or climbs to and back. Guests reach what "
              "is nearer than {:g} m to where they stand along the boundary. A heat lamp's "
              "clearance is to the animal stretched up wherever it might be.",
              kGuestsReach),
          .limits =
              "known to a cell of the ground; no sizes, no room for two animals at one, no "
              "branches, and the top of every object, den, house and fence counts "
              "as a place from which a lamp is touched, whether the animal gets there or not."};
}

std::optional<NotRun> cannot(const Site&) {
  return std::nullopt;
}

void add_findings(const Result& result, const Model& model, FindingList& list) {
  for (const StationRow& row : result.rows) {
    add_place(model, row, list);
    add_lamp(model, row, list);
    if (row.guests_m < kGuestsReach)
      list.push_back(about_station(model, row, Severity::look,
                                   fmt::format("is {} m from where guests stand: in reach of them",
                                               plain_figure(row.guests_m)),
                                   "move it away from them, or see that nothing can be put in"));
  }
}

PlainTables chapter(const Result& result, const Model& model) {
  if (result.rows.empty()) return {};
  PlainTable table;
  table.file = "stations";
  table.title = "What is set out";
  table.columns = {"Station", "Kind", "Where", "On", "Animal", "To guests, m", "Clearance, m"};
  for (const StationRow& row : result.rows) {
    const Station& s = station_of(model, row);
    table.rows.push_back({s.name, word_of(static_cast<std::size_t>(s.kind)),
                          place_words(model, row.at), s.on.empty() ? "the ground" : s.on,
                          come_to_words(row, s.kind), metres(row.guests_m),
                          row.clearance_m ? plain_figure(*row.clearance_m) : "–"});
  }
  table.note = about().limits;
  return {table};
}

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  const auto first = std::find_if(result.rows.begin(), result.rows.end(), [&](const auto& row) {
    return is_used(station_of(model, row).kind) && !row.reached;
  });
  if (first == result.rows.end()) return std::nullopt;
  return LookAt{first->at, 3.0};
}

}  // namespace hummock::stations
