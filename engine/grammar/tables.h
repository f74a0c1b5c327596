// Every table of the site file and of the species file.
#pragma once

#include "engine/grammar/row.h"

namespace hummock::grammar {

const Table& site_table();
const Table& place_table();
const Table& ground_table();
const Table& form_table();
const Table& boundary_table();
const Table& section_table();
const Table& overhang_table();
const Table& band_table();
const Table& apron_table();
const Table& footing_table();
const Table& gate_table();
const Table& vestibule_table();
const Table& drain_table();
const Table& roof_table();
const Table& object_table();
const Table& crown_table();
const Table& planting_table();
const Table& den_table();
const Table& burrow_table();
const Table& water_table();
const Table& viewing_table();
const Table& house_table();
const Table& house_light_table();
const Table& door_table();
const Table& vent_table();
const Table& surrounding_table();
const Table& surface_table();
const Table& station_table();
const Table& siting_table();
const Table& leap_table();
const Table& require_table();
const Table& when_table();
const Table& set_table();
const Table& either_table();
const Table& brief_table();
const Table& confirm_table();
const Table& waiver_table();
const Table& species_table();
const Table& young_table();

// The groups of figures a requirement may name: the part of `what` before the first dot. Declared
// here, where it is asked; defined by the list of analyses (engine/check/analyses.cpp), which
// stands above.
const Words& figure_groups();

// The words of *ifs*: what an answer may rest on, and a keeper confirm.
const Words& assumable();

// Ranges that several tables share.
inline constexpr Range kEdges{0, 100000, ""};
inline constexpr Range kAlongEdge{0.0, 1e6, "m along the edge"};
inline constexpr Range kAperture{0.001, 1.0, "m"};
inline constexpr Range kWire{0.0002, 0.05, "m"};
inline constexpr Range kLevel{-500.0, 9100.0, "m above datum"};
inline constexpr Range kTurn{-360.0, 360.0, "degrees"};
inline constexpr Range kSides{0.0, 200.0, "m", true};
inline constexpr double kFine = 1e-5;  // m: the digit of wires and small openings

// What most tables begin with.
template <class T>
Row name_row(std::string T::*member, const std::string& kind) {
  return {.key = "name",
          .kind = Kind::name,
          .meaning = "what it is called; unique over the whole file",
          .absent = kind + " 1",
          .example = kind,
          .group = "What it is",
          .member = of(member)};
}
template <class T>
Row outline_row(Polygon T::*member, const std::string& meaning) {
  return {.key = "outline",
          .kind = Kind::outline,
          .meaning = meaning,
          .needed = true,
          .group = "Place",
          .member = of(member)};
}
template <class T>
Row bare_row(std::optional<Season> T::*member) {
  return {.key = "bare",
          .kind = Kind::season,
          .meaning = "first and last day without leaves",
          .absent = "never",
          .group = "Leaves",
          .member = of(member)};
}

}  // namespace hummock::grammar
