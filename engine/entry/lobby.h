// A house outside that a gate opens into: a lobby, whose own door is the second of two.
//
// A room of houses (engine/barrier/house_ways.h) is one where some gate of the fence leads into it
// over all its width, and the animal has no other way in: no door, vent or hole of the fence that
// its head passes leads into it from the yard or a vestibule. With the gate shut no animal is in
// it, and with the gate open its door is shut: one door at a time, as with a vestibule. A house
// that nothing leads into is none. What leads from the lobby to the outside beside its door is told
// by the openings; that nothing is dug into it the answer rests on (rests_on.h).
#pragma once

#include <optional>
#include <vector>

#include "engine/barrier/house_ways.h"

namespace hummock::entry {

struct Lobby {
  int gateway = -1;         // of model.gateways: the first that leads into it
  std::vector<int> houses;  // of site.houses, joined to one room
  int door = -1;            // that of them whose door leads outside; -1 = none does
  double depth_m = 0.0;     // straight out from the middle of the gate
};

// `head`: what passes, m.
std::vector<Lobby> lobbies(const Model& model, double head);

// Of a house or a gateway, if it is one of a lobby's.
const Lobby* lobby_of_house(const std::vector<Lobby>& lobbies, int house);
const Lobby* lobby_of_gate(const Model& model, const std::vector<Lobby>& lobbies, int gateway);

}  // namespace hummock::entry
