#include "engine/mesh_export/chosen_parts.h"

#include <algorithm>
#include <set>

#include "engine/space/space.h"

namespace hummock::mesh_export {
namespace {

constexpr const char* kAir = "air";
constexpr const char* kGround = "ground";

bool wants(const Settings& settings, const std::string& word) {
  return std::find(settings.parts.begin(), settings.parts.end(), word) != settings.parts.end();
}

double opacity_of(const Part& part) {
  if (part.kind == PartKind::water) return 0.5;
  if (part.surface == Surface::smooth && part.sight > 0.5) return 0.25;  // glass
  if (part.leaf_density > 0.0) return 0.6;
  // Never so thin that a fence cannot be seen.
  return std::clamp(1.0 - part.openness, 0.35, 1.0);
}

ExportPart from(const Part& part) {
  ExportPart out;
  out.name = part.name;
  out.kind = part.kind;
  out.surface = part.surface;
  out.glass = part.surface == Surface::smooth && part.sight > 0.5;
  out.opacity = opacity_of(part);
  out.closed = part.closed;
  out.mesh = part.mesh;
  return out;
}

ExportPart ground_part(const Model& model) {
  ExportPart out;
  out.name = kGround;
  out.key = kGround;
  out.kind = PartKind::ground;
  out.surface = Surface::earth;
  out.mesh = geom::ground_mesh(model.ground);
  return out;
}

ExportPart air_part(const Model& model) {
  ExportPart out;
  std::string note;
  out.name = kAir;
  out.key = kAir;
  out.surface = Surface::water;
  out.opacity = 0.3;
  out.closed = true;
  out.mesh = space::enclosed_air(model, &note);
  if (out.mesh.empty())
    throw InputError({model.site.file.string(), 0, ""}, "air that is no solid: " + note,
                     "another part");
  return out;
}

void name_nodes(std::vector<ExportPart>& parts) {
  std::map<std::string, int> bearers;
  for (const ExportPart& part : parts) ++bearers[part.name];
  std::map<std::string, int> used;
  for (ExportPart& part : parts) {
    part.node = part.name;
    if (bearers[part.name] == 1 && !part.name.empty()) continue;
    const std::string stem =
        part.name.empty() ? to_string(part.kind) : part.name + ", " + to_string(part.kind);
    part.node = stem + " " + std::to_string(++used[stem]);
  }
}

// Values are named by the part's key.
void give_values(std::vector<ExportPart>& parts, const Settings& settings) {
  for (const auto& [name, values] : settings.vertex_values) {
    const auto part = std::find_if(parts.begin(), parts.end(), [&, &key = name](const auto& p) {
      return p.key == key || p.node == key;
    });
    if (part == parts.end()) continue;  // not among the chosen
    if (values.size() != part->mesh.vertices.size())
      throw InputError({"", 0, name}, std::to_string(values.size()) + " vertex values",
                       std::to_string(part->mesh.vertices.size()) + ", one a vertex");
    part->values = values;
  }
}

// Every wanted word must name something.
void refuse_unknown(const Model& model, const Settings& settings) {
  std::set<std::string> known{kGround, kAir};
  for (const Part& part : model.parts) {
    known.insert(part.name);
    known.insert(to_string(part.kind));
  }
  known.erase("");
  std::string list;
  for (const std::string& k : known) list += (list.empty() ? "" : ", ") + k;
  for (const std::string& wanted : settings.parts)
    if (known.count(wanted) == 0)
      throw InputError({"", 0, "--part"}, "'" + wanted + "'", "a part's name or kind: " + list);
}

}  // namespace

bool is_chosen(const std::vector<std::string>& wanted, const std::string& name, PartKind kind) {
  if (wanted.empty()) return true;
  return std::any_of(wanted.begin(), wanted.end(),
                     [&](const std::string& w) { return w == name || w == to_string(kind); });
}

std::vector<ExportPart> chosen_parts(const Model& model, const Settings& settings) {
  refuse_unknown(model, settings);
  std::vector<ExportPart> out;
  if (settings.parts.empty() || wants(settings, kGround)) out.push_back(ground_part(model));
  std::map<std::string, int> bearers;
  for (const Part& part : model.parts) {
    const int copy = ++bearers[part.name];
    if (part.mesh.empty() || !is_chosen(settings.parts, part.name, part.kind)) continue;
    out.push_back(from(part));
    out.back().key = copy == 1 ? part.name : part.name + "#" + std::to_string(copy);
  }
  if (wants(settings, kAir)) out.push_back(air_part(model));
  if (out.empty())
    throw InputError({"", 0, "--part"}, "nothing with a surface", "a part that has triangles");
  name_nodes(out);
  give_values(out, settings);
  return out;
}

}  // namespace hummock::mesh_export
