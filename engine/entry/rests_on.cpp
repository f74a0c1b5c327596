#include "engine/entry/rests_on.h"

#include <algorithm>
#include <cmath>

#include "engine/brief/given.h"
#include "engine/brief/take_if.h"
#include "engine/entry/careful_gates.h"
#include "engine/entry/lobby.h"
#include "engine/entry/open_vestibule.h"
#include "engine/findings/finding.h"
#include "engine/species/young.h"

namespace hummock::entry {

namespace {

void take(const RestsOn& from, RestsOn& into) {
  for (const Assumption& a : from.list) take_if(a, into);
  into.explored = into.explored && from.explored;
  if (into.why_not.empty()) into.why_not = from.why_not;
}

// What stands outside an open gate is asked how high it is, not what may be climbed or stepped on.
RestsOn forecourt_holds(const Model& model, const GateRow& gate) {
  Assumption a;
  a.key = "forecourt";
  a.words = "what stands before the open gate " + quoted(gate.name) +
            " gives it no hold and no step to get over";
  a.used_value = "none";
  a.careful_value = "a step";
  take_confirmations(model.site, a);
  RestsOn out;
  out.list.push_back(a);
  return out;
}

int ways_out(const Model& model, const Settings& settings, double head) {
  const std::vector<GateRow> rows = door_rows(model, head, settings);
  return static_cast<int>(std::count_if(
      rows.begin(), rows.end(), [](const GateRow& row) { return row.one_open_door_escapes; }));
}

// Ways through houses that only the careful head passes: more doors let it out.
RestsOn doors_rest_on(const Model& model, const Settings& settings) {
  constexpr double kParts = 1000.0;  // of a metre, in which the breaking value is told
  RestsOn out;
  const Sourced<double>& head = model.site.species.least_opening;
  const auto careful = careful_end(head, kSmaller);
  if (!careful || model.site.houses.empty()) return out;
  const int used = ways_out(model, settings, head.value);
  if (ways_out(model, settings, *careful) <= used) return out;
  double holds = head.value, breaks = *careful;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (holds + breaks);
    (ways_out(model, settings, middle) > used ? breaks : holds) = middle;
  }
  Assumption a;
  a.key = "least_opening";
  a.used_value = plain_figure(head.value) + " m";
  a.careful_value = plain_figure(*careful) + " m";
  a.breaking_value = plain_figure(std::ceil(holds * kParts - 1e-6) / kParts) + " m";
  a.words = std::string(opening_is_of_young(model.site.species) ? "the young's" : "its") +
            " head passes no less than " + a.breaking_value + " (used " + a.used_value + ")";
  take_confirmations(model.site, a);
  out.list.push_back(a);
  return out;
}

bool may_dig(const Species& s) {
  const double far = careful_end(s.dig_length, kStronger).value_or(s.dig_length.value);
  const double deep = careful_end(s.dig_depth, kStronger).value_or(s.dig_depth.value);
  return far > 0.0 && deep > 0.0;
}

// A lobby holds as long as nothing is dug into it, with both its doors shut.
RestsOn lobbies_rest_on(const Model& model) {
  RestsOn out;
  if (!may_dig(model.site.species)) return out;
  for (const Lobby& lobby : lobbies(model, model.site.species.least_opening.value)) {
    if (lobby.door < 0) continue;
    const bool earth = std::any_of(lobby.houses.begin(), lobby.houses.end(), [&](int h) {
      return !model.site.houses[static_cast<std::size_t>(h)].solid_floor;
    });
    if (!earth) continue;
    Assumption a;
    a.key = "lobby";
    a.words = "it does not dig into " +
              quoted(model.site.houses[static_cast<std::size_t>(lobby.houses.front())].name) +
              " beneath the fence";
    a.used_value = "not";
    a.careful_value = "it does";
    take_confirmations(model.site, a);
    out.list.push_back(a);
  }
  return out;
}

// That a gate has no fault rests on people's way to it as well.
RestsOn people_too(const Model& model, const Result& found, const RestsOn& animal) {
  RestsOn out;
  out.figures = {"entry.gates_short"};
  for (const GateRow& row : found.gates)
    if (row.people)
      for (const Assumption& a :
           keepers::what_it_rests_on(model.site, *row.people, quoted(row.name)))
        take_if(a, out);
  take(animal, out);
  return out;
}

}  // namespace

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress) {
  RestsOn out;
  out.figures = {"entry.one_door_ways_out"};
  const auto held = std::min(model.gateways.size(), found.gates.size());  // gates before doors
  for (std::size_t k = 0; k < held; ++k) {
    const GateRow& gate = found.gates[k];
    if (gate.one_open_door_escapes) continue;
    take(gate_rests_on(model, model.gateways[k]), out);
    if (gate.held_by_things) take(forecourt_holds(model, gate), out);
    if (!gate.open_vestibule) continue;
    take(vestibule_rests_on(model, static_cast<int>(k), settings.leap, *gate.open_vestibule,
                            progress),
         out);
  }
  take(doors_rest_on(model, settings), out);
  take(lobbies_rest_on(model), out);
  out.besides.push_back(people_too(model, found, out));
  return out;
}

}  // namespace hummock::entry
