#include "engine/entry/rests_on.h"

#include <algorithm>

#include "engine/brief/given.h"
#include "engine/entry/careful_gates.h"
#include "engine/entry/open_vestibule.h"
#include "engine/findings/finding.h"

namespace hummock::entry {

namespace {

void take(const RestsOn& from, RestsOn& into) {
  for (const Assumption& a : from.list) {
    const bool told = std::any_of(into.list.begin(), into.list.end(), [&](const Assumption& b) {
      return b.key == a.key && b.words == a.words;
    });
    if (!told && into.list.size() < kMostIfs) into.list.push_back(a);
  }
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

}  // namespace

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress) {
  RestsOn out;
  out.figures = {"entry.gates_short", "entry.one_door_ways_out"};
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
  return out;
}

}  // namespace hummock::entry
