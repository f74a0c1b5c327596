// Input that is probably wrong: refused until the site file says it is meant.
//
// `accept = ["id", …]` at the top of a site file names what is taken on purpose. What is accepted
// is used as it stands and noted. The ids:
//   projection-scale  a raster whose projection stretches lengths by more than 1 % at the site
//   heights           surveyed heights outside those of Earth's land, -500 to 9000 m
//   survey-coarse     a survey more than 20 times as coarse as the cell
//   survey-hole       a hole in a survey of points inside the boundary
//   climate-times     a climate file whose times cannot be read
//   climate-step      a climate file whose rows are not an hour apart
//   climate-year      a climate file that is not a year of 8760 or 8784 hours
//   mesh-large        a mesh far larger than the yard
//   place-survey      a survey whose projection puts the yard more than 1 degree of arc from the
//                     latitude and longitude of [place]
// The thresholds are common practice, no source.
#pragma once

#include <string>
#include <vector>

#include "engine/base/input_error.h"

namespace hummock {

const std::vector<std::string>& doubt_ids();

bool accepted(const std::vector<std::string>& accept, const char* id);

// Throws InputError unless `id` is accepted; the line ends with how to accept it.
void refuse_unless_accepted(const std::vector<std::string>& accept, const char* id,
                            const Where& where, const std::string& found,
                            const std::string& allowed);

}  // namespace hummock
