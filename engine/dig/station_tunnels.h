// The tunnels of one station.
#pragma once

#include "engine/dig/dig.h"
#include "engine/dig/stations.h"

namespace hummock::dig {

// Measures the station. `with_tunnel`: also lays out the tunnel that counts, in the model's
// coordinates.
Station measure_station(const Model& model, const BuriedParts& parts, const StationPlace& place,
                        bool with_tunnel);

// "under the skirt", "round the apron's inner edge" …
std::string weakness_in_words(const Tunnel& tunnel, const StationPlace& place);

// The shortest tunnel to the ground outside from anywhere in an upright shaft, x metres inside the
// fence and `depth` deep; looked at every 0.1 m down it.
Tunnel from_burrow(const Model& model, const BuriedParts& parts, const StationPlace& place,
                   double x, double depth, double max_depth);

}  // namespace hummock::dig
