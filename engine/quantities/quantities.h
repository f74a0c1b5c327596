// A schedule of quantities: what must be bought and moved.
//
// Lengths are in plan along the line drawn, gates taken off; areas of fence, overhang, skirt, apron
// and roof are the sheets' true areas in the model (one side, no laps, no waste); posts are one at
// every panel's end. Footing, stones and logs are the volumes of the model's closed solids, a stone
// with the part that lies in the ground. Earth is in place, before it swells (earthworks.h). Water
// is the basin below its drawn level.
//
// Stone weighs 2.65 t/m³ (solid granite or limestone, from memory; sandstone about 2.3): a stone
// modelled by its outer form weighs what that form holds. Fixings, gate furniture and labour are
// not counted. Wastage and prices are for the reader.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::quantities {

inline constexpr double kStoneDensity = 2.65;  // t/m³, granite; from memory

struct Row {
  std::string item;   // "mesh fence, 2.44 m high"
  std::string where;  // section or object name
  double amount = 0;
  std::string unit;  // m | m² | m³ | no. | t
  std::string note;
  std::string key;  // what rows add up to: "fence_m", "mesh_m2" … (figures "quantities.KEY")
};
std::vector<Row> schedule(const Model& model);

// The schedule as CSV (RFC 4180, UTF-8, lines ended by CR LF): item, where, amount, unit, note.
// Amounts with three decimals, counts without.
std::string to_csv(const std::vector<Row>& rows);

}  // namespace hummock::quantities
