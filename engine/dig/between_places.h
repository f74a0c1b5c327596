// Where stations are looked at more finely.
#pragma once

#include "engine/dig/dig.h"
#include "engine/dig/stations.h"

namespace hummock::dig {

// Where tunnels lean, their lengths differ from station to station. The shortest in between is
// shorter than the next station's by no more than their spacing, as neither of its legs shortens by
// more than one moves. So where a station is the shortest of its neighbours, and longer than the
// shortest of its thing by no more than that, it is looked at on either side, in steps of a quarter
// of the way to the middle between stations; never at an edge's end, where two edges meet.
std::vector<StationPlace> places_between(const Model& model, const std::vector<Station>& stations,
                                         const std::vector<StationPlace>& places, double spacing);

}  // namespace hummock::dig
