// The young and the grown as one animal: the smallest opening, the strongest leap.
//
// What holds the one may not hold the other, so each figure is the one with which most can be done:
// `least_opening` the smaller of the two; `crouch`, where the file gives one, no more than the
// young's least opening (a young one squeezes where its head passes) or height; `leap_height` the
// higher of the two, with the leap distance in the same proportion where the young's is the higher.
// All else is the grown animal's. That is the careful side, and more than any one animal can: no
// young one leaps as its parent does. A figure taken from the young says so in its source ("the
// young: …").
//
// Where they live (room, shade, hiding, dens, houses) less is the careful side: what the grown do
// not come to or fit into is not theirs, nor what the young do not. For that the grown's own
// figures are kept beside (`Species::grown`).
#pragma once

#include <string>
#include <vector>

#include "engine/species/species.h"

namespace hummock {

Species young_and_grown(const Species& species);

// Which of the two decides each figure the young have, in words; none for a file without young.
std::vector<std::string> young_notes(const Species& species);

// Of what young_and_grown returns, the weaker of the two: the leap, m, that both have, and the
// round hole and clear height that both pass.
double leap_of_both(const Species& species);
double head_of_both(const Species& species);
double crouch_of_both(const Species& species, double crouch);

// Of what young_and_grown returns.
bool opening_is_of_young(const Species& species);

}  // namespace hummock
