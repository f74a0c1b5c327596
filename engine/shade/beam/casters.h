// The parts of a model as light sees them.
#pragma once

#include <optional>
#include <vector>

#include "engine/model/model.h"
#include "engine/sun/sun.h"
#include "geometry/mesh/mesh.h"
#include "geometry/mesh/round_volume.h"

namespace hummock::shade {

using geom::Vec3;

// Share of leaf area seen along a line through leaves that face all directions alike (spherical
// distribution: G = 0.5 for every direction; Ross 1981, from memory).
inline constexpr double kLeafProjection = 0.5;

enum class CasterKind { opaque, sheet, volume };

struct Caster {
  CasterKind kind = CasterKind::opaque;
  int part = -1;  // index into Model::parts
  const geom::Mesh* mesh = nullptr;
  std::vector<Vec3> normals;  // unit, one a triangle (zero for one without area)
  geom::Box3 box;
  bool closed = false;
  double openness = 0.0;  // sheet
  double pitch = 0.0;     // m, sheet of wires; 0 = passes `openness` at any angle
  double wire = 0.0;      // m
  double leaf_density = 0.0;
  std::optional<Season> bare;
  double bare_share = kBareShare;        // of leaf_density while bare
  std::optional<geom::RoundBody> round;  // a crown as drawn: light goes through this, not its mesh
};

// Everything that casts shade: opaque, sheets, volumes, each in the order of the parts. The model
// must outlive it.
std::vector<Caster> casters_of(const Model& model);

// Share of the beam a sheet with unit normal `n` passes along unit direction `s`. Wires run level
// and up the sheet; those of a nearly level sheet along x and y.
double sheet_transmittance(const Caster& sheet, Vec3 n, Vec3 s);

// Extinction of a volume in 1/m on that date: T = exp(−extinction · length).
double extinction(const Caster& volume, const sun::Date& date);

}  // namespace hummock::shade
