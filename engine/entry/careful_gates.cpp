#include "engine/entry/careful_gates.h"

#include <cmath>
#include <optional>

#include "engine/brief/given.h"
#include "engine/entry/rests_on.h"
#include "engine/entry/way_beyond.h"
#include "engine/findings/finding.h"
#include "engine/species/young.h"

namespace hummock::entry {

namespace {

struct Premise {
  Sourced<double> Species::*figure = nullptr;
  double used = 0.0, careful = 0.0;  // m
  double parts = 100.0;              // of a metre, in which its breaking value is told
  Assumption told;

  double at(double share) const { return used + share * (careful - used); }
};

std::optional<Premise> premise(const Model& model, Sourced<double> Species::*figure,
                               const char* key, double share, double parts) {
  const Sourced<double>& f = model.site.species.*figure;
  const std::optional<double> careful = careful_end(f, share);
  if (!careful) return std::nullopt;
  Premise p{figure, f.value, *careful, parts, {}};
  p.told.key = key;
  p.told.used_value = plain_figure(f.value) + " m";
  p.told.careful_value = plain_figure(*careful) + " m";
  take_confirmations(model.site, p.told);
  return p;
}

// A gate, with what is asked of it for one animal after another.
struct Asked {
  const Model& model;
  const BeyondGate& gate;
};

bool lets_out(const Asked& asked, const std::vector<const Premise*>& set, double share) {
  Species careful = asked.model.site.species;
  for (const Premise* p : set) (careful.*(p->figure)).value = p->at(share);
  return asked.gate.way_of(careful).outside;
}

// The last value at which it still holds, rounded towards the used one.
std::string holds_at(const Asked& asked, const Premise& p) {
  double holds = 0.0, breaks = 1.0;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (holds + breaks);
    (lets_out(asked, {&p}, middle) ? breaks : holds) = middle;
  }
  const double parts = p.at(holds) * p.parts;
  const double kept = p.careful > p.used ? std::floor(parts + 1e-6) : std::ceil(parts - 1e-6);
  return plain_figure(kept / p.parts) + " m";
}

std::string words_of(const Model& model, const Premise& p, const std::string& value) {
  const std::string used = " (used " + p.told.used_value + ")";
  if (p.figure == &Species::leap_height) return "it leaps no more than " + value + used;
  const bool young = opening_is_of_young(model.site.species);
  return std::string(young ? "the young's" : "its") + " head passes no less than " + value + used;
}

}  // namespace

RestsOn gate_rests_on(const Model& model, const Gateway& gateway) {
  RestsOn out;
  auto head = premise(model, &Species::least_opening, "least_opening", kSmaller, 1000.0);
  std::optional<Premise> leap;
  if (!model.site.boundary.gates[static_cast<std::size_t>(gateway.gate)].vestibule) {
    leap = premise(model, &Species::leap_height, "leap_height", kStronger, 100.0);
  }
  std::vector<const Premise*> all;
  if (head) all.push_back(&*head);
  if (leap) all.push_back(&*leap);
  if (all.empty()) return out;
  const BeyondGate gate(model, gateway);
  const Asked asked{model, gate};
  if (!lets_out(asked, all, 1.0)) return out;
  for (const Premise* p : all) {
    if (all.size() > 1 && !lets_out(asked, {p}, 1.0)) continue;
    Assumption told = p->told;
    told.breaking_value = holds_at(asked, *p);
    told.words = words_of(model, *p, told.breaking_value);
    out.list.push_back(told);
  }
  if (out.list.empty()) {
    for (Premise* p : {&*head, &*leap}) p->told.words = words_of(model, *p, p->told.used_value);
    out.list.push_back(either_of(head->told, leap->told));
  }
  return out;
}

}  // namespace hummock::entry
