#include "engine/leap/rows/climbing_premise.h"

#include <algorithm>
#include <cmath>

#include "engine/species/doubt.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::leap {
namespace {

using Surfaces = std::vector<std::string>;

bool has(const Surfaces& list, const std::string& surface) {
  return std::find(list.begin(), list.end(), surface) != list.end();
}

bool stands_there(const Model& model, Surface surface) {
  return std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    const bool bark = surface == Surface::bark && part.kind == PartKind::crown;
    return !part.mesh.empty() && (bark || part.surface == surface);
  });
}

// No file says of what the walls of a house are.
bool has_houses(const Model& model) {
  return std::any_of(model.parts.begin(), model.parts.end(), [](const Part& part) {
    return part.kind == PartKind::house && part.source >= 0;
  });
}

bool has_banks(const Model& model) {
  return has_face_between(geom::ground_mesh(model.ground), model.site.species.stand_slope.value,
                          geom::kPi);
}

bool climbs_some_wall(const Surfaces& list) {
  return has(list, "rock") || has(list, "wood") || has(list, "bark");
}

// Of all that an animal may be said to climb.
Surfaces climbable_surfaces(const Model& model) {
  Surfaces list;
  for (const Surface surface : {Surface::mesh, Surface::bark, Surface::rock, Surface::wood})
    if (stands_there(model, surface)) list.emplace_back(to_string(surface));
  const bool known = climbs_some_wall(list) || climbs_some_wall(model.site.species.climbs.value);
  if (has_houses(model) && !known) list.emplace_back("wood");
  if (has_banks(model)) list.emplace_back("earth");
  return list;
}

void add_new(const Surfaces& from, const Surfaces& used, Surfaces& into) {
  for (const std::string& surface : from)
    if (!has(used, surface) && !has(into, surface)) into.push_back(surface);
}

Surfaces beside_the_list(const Model& model) {
  const auto& climbs = model.site.species.climbs;
  Surfaces more;
  for (const auto& record : climbs.records) add_new(record.value, climbs.value, more);
  if (unsure(climbs)) add_new(climbable_surfaces(model), climbs.value, more);
  return more;
}

std::string listed(const Surfaces& list) {
  std::string words;
  for (const std::string& surface : list) words += (words.empty() ? "" : ", ") + surface;
  return words;
}

}  // namespace

std::optional<Premise> climbing_premise(const Model& model) {
  const Surfaces used = model.site.species.climbs.value;
  const Surfaces more = beside_the_list(model);
  if (more.empty()) return std::nullopt;
  const bool nothing = used.empty() && unsure(model.site.species.climbs);
  Premise p;
  p.told.key = "climbs";
  p.told.careful_value = listed(more);
  p.told.used_value = nothing ? "nothing" : "not";
  p.told.words = nothing ? "it climbs nothing" : "it does not climb " + listed(more);
  p.take = [used, more](Taken& taken, double share) {
    auto& climbs = taken.species.climbs.value;
    climbs = used;
    if (share > 0.5) climbs.insert(climbs.end(), more.begin(), more.end());
  };
  return p;
}

Species climbs_at_most(const Model& model) {
  Taken taken{model.site.species};
  if (const auto premise = climbing_premise(model)) premise->take(taken, 1.0);
  return taken.species;
}

bool has_face_between(const geom::Mesh& mesh, double from, double to) {
  return std::any_of(mesh.triangles.begin(), mesh.triangles.end(), [&](const geom::Triangle& t) {
    const geom::Vec3 a = mesh.vertices[t[0]];
    const geom::Vec3 n = cross(mesh.vertices[t[1]] - a, mesh.vertices[t[2]] - a);
    const double slope = std::atan2(length(xy(n)), std::abs(n.z));
    return slope >= from && slope <= to;
  });
}

}  // namespace hummock::leap
