#include "engine/model/read/import_mesh.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/child_process.h"
#include "engine/base/resource_error.h"
#include "engine/model/read/assimp_assertions.h"
#include "engine/model/read/mesh_answer.h"

namespace hummock {
namespace {

using geom::Mesh;
using geom::Vec3;

constexpr std::uint64_t kMegabyte = 1'000'000;

[[noreturn]] void refuse(const MeshAsk& ask, const std::string& found) {
  throw InputError(ask.where, "'" + ask.file.filename().string() + "': " + found,
                   "a mesh file with triangles (glb, gltf, obj, ply, stl, off, …)");
}

ChildLimits limits_for(std::uintmax_t size) {
  ChildLimits limits;
  limits.time = std::chrono::seconds(std::min<std::uint64_t>(20 + size / kMegabyte, 600));
  limits.memory = std::min<std::uint64_t>(512 * kMegabyte + 64 * size, 8000 * kMegabyte);
  limits.answer = limits.memory;
  return limits;
}

// Out of memory: of what the reader was given, or of what this process has?
[[noreturn]] void refuse_memory(const MeshAsk& ask, const ChildLimits& limits) {
  if (own_memory_limit() <= limits.memory) {
    throw ResourceError("out of memory while reading the mesh '" + ask.file.filename().string() +
                        "'");
  }
  refuse(ask, fmt::format("needs more than {} MB to be read", limits.memory / kMegabyte));
}

std::string read_bytes(const MeshAsk& ask, const Progress& progress) {
  std::error_code failed;
  if (!std::filesystem::exists(ask.file, failed)) refuse(ask, "no such file");
  if (!std::filesystem::is_regular_file(ask.file, failed)) refuse(ask, "not a plain file");
  const ChildLimits limits = limits_for(std::filesystem::file_size(ask.file, failed));
  ChildAnswer answer = run_child("hummock-read-mesh", {ask.file.string()}, limits, progress);
  switch (answer.end) {
    case ChildAnswer::End::too_slow:
      refuse(ask, fmt::format("not read after {} s", limits.time.count()));
    case ChildAnswer::End::too_much:
      refuse(ask, "more triangles than its size can hold");
    case ChildAnswer::End::died:
      refuse(ask, fmt::format("damaged: its reader died of it (signal {})", answer.status));
    case ChildAnswer::End::done:
      break;
  }
  if (answer.status == 0) return std::move(answer.bytes);
  if (answer.status == 3) refuse_memory(ask, limits);
  refuse(ask, answer.status == 2 ? answer.bytes.substr(0, 400) : "its reader failed");
}

Vec3 upright(Vec3 p, const std::string& up) {
  if (up == "y") return {p.z, p.x, p.y};
  if (up == "x") return {p.y, p.z, p.x};
  return p;
}

// An extent of a thousand metres is most often one of millimetres.
void refuse_huge(const MeshAsk& ask, const Mesh& mesh) {
  if (mesh.empty()) return;
  const geom::Box3 box = geom::bounds(mesh);
  const Vec3 size = box.hi - box.lo;
  const double widest = std::max({size.x, size.y, size.z});
  if (widest <= ask.widest) return;
  Where where = ask.where;
  if (where.key.ends_with(".file")) where.key.replace(where.key.size() - 4, 4, "scale");
  throw InputError(
      where,
      fmt::format("'{}' {:.4g} m wide at a scale of {:g}", ask.file.filename().string(), widest,
                  ask.scale),
      fmt::format("at most {:.4g} m for this yard: scale = {:g} if the file is in millimetres, or "
                  "accept = [\"mesh-large\"]",
                  ask.widest, ask.scale * 0.001));
}

}  // namespace

ImportedMesh import_mesh(const MeshAsk& ask, const Progress& progress) {
  auto answer = from_answer(read_bytes(ask, progress));
  if (!answer) refuse(ask, "its reader gave no mesh");
  Mesh mesh = std::move(answer->mesh);
  for (Vec3& v : mesh.vertices) {
    if (!std::isfinite(v.x) || !std::isfinite(v.y) || !std::isfinite(v.z)) {
      refuse(ask, "a corner that is not a number");
    }
    v = upright(v, ask.up) * ask.scale;
  }
  refuse_huge(ask, mesh);
  const geom::Box3 box = geom::bounds(mesh);
  if (!mesh.empty()) mesh = geom::weld(mesh, 1e-6 * geom::distance(box.lo, box.hi));
  if (mesh.empty() || geom::surface_area(mesh) <= 0.0) refuse(ask, "no triangles");
  return {std::move(mesh), std::move(answer->read)};
}

Mesh import_mesh(const std::filesystem::path& file, double scale, const std::string& up,
                 const Where& where) {
  return import_mesh(MeshAsk{file, scale, up, where}).mesh;
}

}  // namespace hummock
