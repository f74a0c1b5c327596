// What an animal can do and needs, each figure with where it comes from.
#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/input_file.h"
#include "engine/species/requirement.h"

namespace hummock {

// One figure. A value without a source is refused by the reader.
template <class T>
struct Sourced {
  T value{};
  std::string source;
  std::string measures;  // jump figures: ledge | bar | centre of mass | wall scrambled
  std::string evidence;  // trial | biomechanics | record | anecdote | assumed
  Where where;
  std::optional<T> careful;         // the value at the careful end, where one was given
  std::vector<Sourced<T>> records;  // all records of the figure when several were given
  bool used = false;                // of a record: this is the one above; exactly one is
};

// The young where they differ: smaller, and they slip through what holds the grown. How the two
// are judged together: engine/species/young.h.
struct Young {
  std::optional<Sourced<std::array<double, 3>>> body;  // m: length, width, height
  std::optional<Sourced<double>> least_opening;        // m, > 0
  std::optional<Sourced<double>> leap_height;          // m
  Where where;
};

// Figures of the grown where there are young: what both must be able to do where they live.
struct Grown {
  double leap_height = 0.0, least_opening = 0.0, crouch = 0.0;  // m
};

struct Species {
  std::string name;
  std::filesystem::path file;
  InputFile read;                 // that file as it was read
  Sourced<double> leap_height;    // m, 0.01..15: highest ledge gained from standing on the level
  Sourced<double> leap_distance;  // m, 0.01..50: longest level gap
  Sourced<double> grip;           // m, >= 0: extra reach to hook an edge
  Sourced<double> cling_leap;     // 0..1: share of its leap from a climbed upright face
  Sourced<double> stand_slope;    // rad: steepest it stands on
  Sourced<std::vector<std::string>> climbs;  // of mesh, bark, rock, wood, earth
  Sourced<std::array<double, 3>> body;       // m: length, width, height
  Sourced<double> least_opening;             // m: smallest round hole the head passes
  Sourced<double> dig_depth;                 // m, >= 0
  Sourced<double> dig_length;                // m, >= 0
  Sourced<double> wade_depth;                // m, >= 0
  Sourced<double> eye_height;                // m, > 0
  // The body. Absent: the careful default of engine/species/body.h, which is named when used.
  std::optional<Sourced<double>>
      crouch;  // m, > 0: least clear height it squeezes through or rests in
  std::optional<Sourced<double>> reach;  // m, >= 0: from a hold or footing to an edge, not leaping
  std::optional<Sourced<double>> perch;  // m, >= 0: least width of a crest it can stand on
  std::optional<Sourced<double>> climbs_past_upright;  // rad, 0..90°: past upright it still climbs
  std::optional<Sourced<bool>> hangs;                  // hand over hand beneath sheets
  std::optional<Sourced<bool>> swims;
  std::optional<Sourced<double>> leap_from_water;  // 0..1: share of its leap it has when afloat
  std::optional<Sourced<double>> outdoor_low;      // °C: below it the animal must be able to go in
  std::optional<Young> young;
  std::optional<Grown> grown;  // set by young_and_grown (engine/species/young.h), in no file
  std::vector<Requirement> requirements;
  std::vector<Confirmation> confirmations;
  std::vector<Either> eithers;
};

}  // namespace hummock
