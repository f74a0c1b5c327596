// The model as a mesh file through Assimp: glb, obj, stl, ply.
//
// Units are metres × `scale`, written into the vertices. Coordinates are the model's local ones
// (add Model::origin for the site's), float32 in every format: 1e-7 of the distance from the
// origin.
//
//   glb  y up by a turn in the root node, as glTF has it. A node for each part under that root,
//        named; materials by surface; both sides drawn; a mesh fence is see-through by its
//        openness.
//   obj  z up. Objects carry the part's name; OBJ knows spaces poorly, so they become underscores.
//        The materials go beside it as NAME.mtl.
//   ply  z up, one mesh, ASCII (Assimp 5.2 writes broken binary PLY when there are colours), a
//   colour
//        a vertex: the material's, or that of `vertex_values`.
//   stl  z up, binary, no names: one closed solid for printing, see below.
//
// Normals follow the shape: faces that meet at less than 30° share a smoothed one, others keep
// their edge (vertices are doubled there). The ground is smooth throughout.
//
// A part is chosen by its name in the site file, by its kind (model.h `word`), or "ground". Also
// "air": the enclosed air as a solid, which is not part of the whole.
//
// The STL solid. The ground becomes a block with a level base, and everything closed is united with
// it by CGAL's boolean; sheets (fence panels, gates, overhangs, glass) get `sheet_thickness` of
// printed size and reach into the ground; gate leaves are filled to the ground and to their posts.
// Things lie 0.1 mm of printed size in the ground, so that one that touches it along an edge holds.
// Of the whole model are left out: roofs (they would hide the yard; ask for `--part roof`), what is
// below the ground, water, plantings and surroundings. A part that is not fit as a solid is left
// out and named in `notes`. The result is checked: closed, every edge with its mate. About 20 s for
// a ground of 100 000 cells. Pieces may be separate shells when they float (a roof alone, a deck
// without legs).
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/model/model.h"

namespace hummock::mesh_export {

struct Settings {
  std::vector<std::string> parts;  // names or kinds; empty = all
  double scale = 1.0;              // > 0; stl: 0.02 prints 1:50 with metres as the unit
  // Per-part vertex values to write as colours (glb, ply), dark blue least to pale sand greatest
  // over all of them: name → one a vertex of the part's mesh (for "ground": one a node). The second
  // part of a name is "name#2", counted in the model's order.
  std::map<std::string, std::vector<float>> vertex_values;
  double sheet_thickness = 0.0015;  // m of printed size, > 0: stl
};
struct Written {
  std::size_t parts = 0, vertices = 0, triangles = 0;
  bool closed = false;             // stl: one closed solid
  std::vector<std::string> notes;  // what was left out, and why
};
// Format by extension. Throws InputError for an unknown extension or part, values that do not fit
// their part, a scale that is not above zero, a solid that cannot be made, a place that cannot be
// written; the file is then as it was.
Written write(const std::filesystem::path& path, const Model& model, const Settings& settings = {},
              const Progress& progress = {});

}  // namespace hummock::mesh_export
