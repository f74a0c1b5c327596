// Which parts go into the file, under which node names.
#pragma once

#include <string>
#include <vector>

#include "engine/mesh_export/mesh_export.h"

namespace hummock::mesh_export {

struct ExportPart {
  std::string node;  // unique in the file
  std::string name;  // of the part
  std::string key;   // the name, or "name#2" for the model's second part of that name …
  PartKind kind = PartKind::panel;
  Surface surface = Surface::smooth;
  bool glass = false;
  double opacity = 1.0;
  bool closed = false;
  geom::Mesh mesh;
  std::vector<float> values;  // one a vertex, or empty
};

// In the model's order, the ground first. A name borne by several parts becomes "name, kind 1" …
std::vector<ExportPart> chosen_parts(const Model& model, const Settings& settings);

// Does a name or kind of the settings name this part?
bool is_chosen(const std::vector<std::string>& wanted, const std::string& name, PartKind kind);

}  // namespace hummock::mesh_export
