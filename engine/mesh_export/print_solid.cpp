#include "engine/mesh_export/print_solid.h"

#include <algorithm>
#include <cmath>
#include <new>
#include <optional>

#include "engine/mesh_export/chosen_parts.h"
#include "engine/mesh_export/thick_sheet.h"
#include "geometry/mesh/ground_union.h"

namespace hummock::mesh_export {
namespace {

constexpr double kBase = 0.003;      // m of printed size: least ground below its lowest place
constexpr double kLeastBase = 0.20;  // m
constexpr double kSunk = 0.0001;     // m of printed size: what lies on the ground, into it
constexpr double kLow = 1e-6;        // m: a panel over a gate that is as tall has no height

struct Piece {
  geom::Mesh mesh;
  std::string name;
  bool patch = false;  // of a thickened sheet other than the fence and its gates
};

// Lengths of the model for what is asked in printed size.
struct Sizes {
  double thickness = 0.0;  // of sheets
  double base = 0.0;       // ground below its lowest place
  double root = 0.0;       // sheets reach this far into the ground
  double sunk = 0.0;       // things lie this far in it

  // Of the k-th piece: up to 1 % more, each another, so that the faces of pieces that meet do not
  // lie in one plane and their edges do not touch by chance, which would leave no solid.
  double thickness_of(std::size_t k) const {
    const double golden = 0.6180339887498949 * static_cast<double>(k);
    return thickness * (1.0 + 0.01 * (golden - std::floor(golden)));
  }
};

Sizes sizes_for(const Settings& settings) {
  Sizes s;
  s.thickness = settings.sheet_thickness / settings.scale;
  s.base = std::max(kLeastBase, kBase / settings.scale) + 2.0 * s.thickness;
  s.root = std::min(s.base - 0.5 * s.thickness, s.thickness + 0.1);
  s.sunk = kSunk / settings.scale;
  return s;
}

bool in_the_whole(PartKind kind) {
  switch (kind) {
    case PartKind::post:
    case PartKind::overhang:
    case PartKind::object:
    case PartKind::crown:
    case PartKind::den:
    case PartKind::house:
    case PartKind::vestibule:
      return true;
    default:  // panels and gates are drawn from their lines; see mesh_export.h for the rest
      return false;
  }
}

// Deep enough that nothing sticks out of the ground's level base.
double floor_below(const Model& model, const Sizes& sizes, const std::vector<Piece>& pieces) {
  double floor = *std::min_element(model.ground.z.begin(), model.ground.z.end()) - sizes.base;
  for (const Piece& piece : pieces)
    floor = std::min(floor, geom::bounds(piece.mesh).lo.z - 0.25 * kLeastBase);
  return floor;
}

// Panels and gates as upright slabs on their lines, rooted in the ground.
void add_barrier(const Model& model, const Settings& settings, const Sizes& sizes,
                 std::vector<Piece>& out) {
  for (const Panel& p : model.panels) {
    const std::string& name =
        model.site.boundary.sections[static_cast<std::size_t>(p.section)].name;
    if (!is_chosen(settings.parts, name, PartKind::panel)) continue;
    const bool over_gate = p.gate >= 0;
    if (over_gate && p.top_a - p.foot_a < kLow && p.top_b - p.foot_b < kLow) continue;
    const double foot_a = over_gate ? p.foot_a : std::min(p.foot_a, p.ground_a) - sizes.root;
    const double foot_b = over_gate ? p.foot_b : std::min(p.foot_b, p.ground_b) - sizes.root;
    out.push_back(
        {slab(p.a, p.b, foot_a, foot_b, p.top_a, p.top_b, sizes.thickness_of(out.size())), name});
  }
  for (const Gateway& g : model.gateways) {
    const std::string& name = model.site.boundary.gates[static_cast<std::size_t>(g.gate)].name;
    if (!is_chosen(settings.parts, name, PartKind::gate)) continue;
    out.push_back({slab(g.a, g.b, g.ground_a - sizes.root, g.ground_b - sizes.root, g.leaf_top,
                        g.leaf_top, sizes.thickness_of(out.size())),
                   name});
  }
}

// A log on level ground touches it along an edge, which leaves no solid; printed it must hold. So
// things lie a hair in the ground, and what stands on others a little deeper than they do.
geom::Mesh sunk(geom::Mesh mesh, const Model& model, const Sizes& sizes) {
  const geom::Box3 box = geom::bounds(mesh);
  const double above = box.lo.z - geom::height_at(model.ground, geom::xy(box.centre()));
  const double by = sizes.sunk * (1.0 + std::max(0.0, above));
  for (geom::Vec3& v : mesh.vertices) v.z -= by;
  return mesh;
}

void add_parts(const Model& model, const Settings& settings, const Sizes& sizes,
               std::vector<Piece>& out) {
  const bool whole = settings.parts.empty();
  for (const ExportPart& part : chosen_parts(model, settings)) {
    if (part.kind == PartKind::ground) continue;
    const bool drawn_from_lines = part.kind == PartKind::panel || part.kind == PartKind::gate;
    if (drawn_from_lines && part.name != "air") continue;
    if (whole && !in_the_whole(part.kind)) continue;
    const std::string label = part.name + " (" + to_string(part.kind) + ")";
    if (part.closed) {
      const bool lies = whole && (part.kind == PartKind::object || part.kind == PartKind::den);
      out.push_back({lies ? sunk(part.mesh, model, sizes) : part.mesh, label});
      continue;
    }
    for (const geom::Mesh& patch : smooth_patches(part.mesh))
      out.push_back({thickened_sheet(patch, sizes.thickness_of(out.size()), 0.4 * sizes.thickness),
                     label, true});
  }
}

// Drops what is no solid, with a note for each name.
std::vector<Piece> fit_pieces(std::vector<Piece> pieces, std::vector<std::string>& notes,
                              const Progress& progress) {
  std::vector<Piece> fit;
  for (std::size_t k = 0; k < pieces.size(); ++k) {
    progress.step("checking solids", static_cast<double>(k) / static_cast<double>(pieces.size()));
    const std::string reason = geom::unfit_as_solid(pieces[k].mesh);
    if (reason.empty())
      fit.push_back(std::move(pieces[k]));
    else
      notes.push_back("'" + pieces[k].name + "' left out: it " + reason);
  }
  return fit;
}

// With the ground's block when `floor` says how deep it goes.
geom::Solid unite(const Model& model, const std::vector<Piece>& pieces,
                  std::optional<double> floor) {
  std::vector<geom::Mesh> meshes;
  meshes.reserve(pieces.size());
  for (const Piece& piece : pieces) meshes.push_back(piece.mesh);
  return floor ? geom::unite_with_ground(model.ground, *floor, meshes)
               : geom::unite(meshes, geom::Operands::checked);
}

// A boolean that ran out of memory says so among its reasons.
void refuse_memory(const geom::Solid& solid) {
  if (solid.reason.find("bad_alloc") != std::string::npos) throw std::bad_alloc();
}

// The second try: vestibules and the like are dearer to the union than to the print.
void drop_patches(std::vector<Piece>& pieces, const std::string& reason,
                  std::vector<std::string>& notes) {
  for (const Piece& piece : pieces) {
    const std::string note = piece.name + " left out: " + reason;
    if (piece.patch && std::find(notes.begin(), notes.end(), note) == notes.end())
      notes.push_back(note);
  }
  std::erase_if(pieces, [](const Piece& piece) { return piece.patch; });
}

}  // namespace

PrintSolid print_solid(const Model& model, const Settings& settings, const Progress& progress) {
  const Sizes sizes = sizes_for(settings);
  PrintSolid out;
  std::vector<Piece> pieces;
  add_parts(model, settings, sizes, pieces);
  add_barrier(model, settings, sizes, pieces);
  std::optional<double> floor;
  if (is_chosen(settings.parts, "ground", PartKind::ground))
    floor = floor_below(model, sizes, pieces);
  pieces = fit_pieces(std::move(pieces), out.notes, progress);
  progress.step("uniting", 0.0);
  geom::Solid solid = unite(model, pieces, floor);
  refuse_memory(solid);
  if (!solid.ok) {
    drop_patches(pieces, solid.reason, out.notes);
    solid = unite(model, pieces, floor);
    refuse_memory(solid);
  }
  out.parts = pieces.size() + (floor ? 1 : 0);
  if (!solid.ok || solid.mesh.empty())
    throw InputError({model.site.file.string(), 0, ""},
                     "parts that make no solid: " + (solid.ok ? "none is left" : solid.reason),
                     "fewer --part, or another --scale");
  out.mesh = std::move(solid.mesh);
  progress.step("uniting", 1.0);
  return out;
}

}  // namespace hummock::mesh_export
