// The ground under guests.
//
// Guests of viewing places stand where the site says, mostly on the modelled ground (those along a
// whole section half a metre off, where its nearest height will do). Beyond it a level site goes on
// level under the forms drawn on it (ground_over); a raster goes on as far as it is kept for the
// horizon (Model::beyond); of scattered points nothing more is known. Where the survey has no
// height for the ground a guest stands on, in the margin or beyond it, the nearest one stands for
// it, and what guests see rests on that (engine/site/unseen.h).
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/ground/ground.h"
#include "engine/site/unseen.h"

namespace hummock::ground {

// Of an Unseen: guests stand where the survey has no height.
inline constexpr const char* kGuestGround = "guest-ground";

// The ground out to all guests of a level site; nothing when none stands beyond the modelled
// ground, or when the site has a survey. `site` is in local coordinates.
std::optional<geom::Heightfield> level_out_to_guests(const Site& site, Vec2 origin);

// The modelled ground, and which of its nodes the survey has no height for (empty = none).
struct Modelled {
  const geom::Heightfield& ground;
  const std::vector<std::uint8_t>& guessed;
};
// That the heights under some of the guests are guessed, where they are. `beyond`: the raster's
// land, or nothing.
std::optional<Unseen> guessed_under_guests(const Site& site, const Modelled& modelled,
                                           const geom::Heightfield* beyond);

}  // namespace hummock::ground
