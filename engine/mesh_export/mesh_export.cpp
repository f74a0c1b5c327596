#include "engine/mesh_export/mesh_export.h"

#include <algorithm>
#include <assimp/Exporter.hpp>
#include <cctype>
#include <cmath>
#include <new>

#include "engine/base/atomic_file.h"
#include "engine/mesh_export/chosen_parts.h"
#include "engine/mesh_export/glb_file.h"
#include "engine/mesh_export/print_solid.h"
#include "engine/mesh_export/scene.h"

namespace hummock::mesh_export {
namespace {

namespace fs = std::filesystem;

Format format_of(const fs::path& path) {
  std::string ending = path.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  if (ending == ".glb") return Format::glb;
  if (ending == ".obj") return Format::obj;
  if (ending == ".stl") return Format::stl;
  if (ending == ".ply") return Format::ply;
  throw InputError({path.string(), 0, ""}, "'" + ending + "'", ".glb, .obj, .stl or .ply");
}

// Assimp's ids. Binary PLY is broken there when there are colours.
const char* assimp_id(Format format) {
  switch (format) {
    case Format::glb:
      break;  // glb_file.h
    case Format::obj:
      return "obj";
    case Format::stl:
      return "stlb";
    case Format::ply:
      return "ply";
  }
  return "";
}

std::string bytes_of(const aiExportDataBlob& blob) {
  return {static_cast<const char*>(blob.data), blob.size};
}

// The first blob is the file; OBJ brings its materials as a second and names it by a stand-in.
void save(const fs::path& path, const aiExportDataBlob& blob) {
  std::string text = bytes_of(blob);
  const aiExportDataBlob* materials = blob.next;
  if (materials == nullptr) {
    save_bytes(path, text);
    return;
  }
  fs::path beside = path;
  beside.replace_extension(".mtl");
  const std::string stand_in = "mtllib $blobfile.mtl";
  const std::size_t at = text.find(stand_in);
  if (at != std::string::npos)
    text.replace(at, stand_in.size(), "mtllib " + beside.filename().string());
  save_bytes(beside, bytes_of(*materials));
  save_bytes(path, text);
}

// The union's triangles come in an order that hangs on where its data lay in memory. Corners are in
// order of place after welding; each triangle begins at its first, and they are sorted by them.
geom::Mesh in_order(geom::Mesh mesh) {
  for (geom::Triangle& t : mesh.triangles)
    std::rotate(t.begin(), std::min_element(t.begin(), t.end()), t.end());
  std::sort(mesh.triangles.begin(), mesh.triangles.end());
  return mesh;
}

// Corners that the file's float32 cannot tell apart are joined, so that few triangles without area
// are written; a closed mesh stays closed, for its edges collapse in pairs.
geom::Mesh as_stored(geom::Mesh mesh, double scale) {
  const auto stored = [&](double v) {
    return static_cast<double>(static_cast<float>(v * scale)) / scale;
  };
  for (Vec3& v : mesh.vertices) v = {stored(v.x), stored(v.y), stored(v.z)};
  return in_order(geom::weld(mesh, 0.0));
}

std::vector<ExportPart> parts_for(Format format, const Model& model, const Settings& settings,
                                  const Progress& progress, Written& written) {
  if (format != Format::stl) {
    std::vector<ExportPart> parts = chosen_parts(model, settings);
    written.parts = parts.size();
    return parts;
  }
  PrintSolid solid = print_solid(model, settings, progress);
  written.parts = solid.parts;
  written.notes = std::move(solid.notes);
  ExportPart part;
  part.node = part.name = model.site.name.empty() ? "site" : model.site.name;
  part.mesh = as_stored(std::move(solid.mesh), settings.scale);
  part.closed = written.closed = geom::is_closed(part.mesh);
  if (!part.closed)
    written.notes.emplace_back("details below the file's precision: the solid is not closed");
  return {std::move(part)};
}

}  // namespace

Written write(const fs::path& path, const Model& model, const Settings& settings,
              const Progress& progress) {
  const Format format = format_of(path);
  if (!(settings.scale > 0.0) || !std::isfinite(settings.scale))
    throw InputError({"", 0, "--scale"}, std::to_string(settings.scale), "a number above 0");
  if (format == Format::obj && is_stream(path)) {
    throw InputError({path.string(), 0, ""}, "a pipe or device for two files",
                     "a plain file: OBJ writes its materials beside it");
  }
  Written written;
  const std::vector<ExportPart> parts = parts_for(format, model, settings, progress, written);
  progress.step("writing", 0.0);
  SceneSize size;
  if (format == Format::glb) {
    save_bytes(path, glb_bytes(parts, model.site.name, settings.scale, size));
    written.vertices = size.vertices;
    written.triangles = size.triangles;
    progress.step("writing", 1.0);
    return written;
  }
  const auto scene = make_scene(parts, model, settings.scale, format, size);
  written.vertices = size.vertices;
  written.triangles = size.triangles;
  Assimp::Exporter exporter;
  const aiExportDataBlob* blob = exporter.ExportToBlob(scene.get(), assimp_id(format));
  const std::string said = exporter.GetErrorString();
  // It fails without a word where memory gives out half-way.
  const bool no_memory = said.empty() || said.find("bad_alloc") != std::string::npos;
  if (blob == nullptr && no_memory) throw std::bad_alloc();
  if (blob == nullptr)
    throw InputError({path.string(), 0, ""},
                     std::string("a mesh that cannot be written: ") + exporter.GetErrorString(),
                     "another format");
  save(path, *blob);
  progress.step("writing", 1.0);
  return written;
}

}  // namespace hummock::mesh_export
