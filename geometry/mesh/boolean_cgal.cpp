#include "geometry/mesh/boolean_cgal.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <functional>
#include <optional>
#include <queue>
#include <utility>

#include "geometry/mesh/star_solid.h"

namespace hummock::geom {
namespace {

namespace pmp = CGAL::Polygon_mesh_processing;
using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Point = Kernel::Point_3;
using Surface = CGAL::Surface_mesh<Point>;

enum class Step { unite, subtract, common };

// Nothing when the triangles are no surface (an edge with three faces, a point where two sheets
// pinch that cannot be told apart).
std::optional<Surface> to_surface(const Mesh& mesh) {
  std::vector<Point> points;
  points.reserve(mesh.vertices.size());
  for (const Vec3& v : mesh.vertices) points.emplace_back(v.x, v.y, v.z);
  std::vector<std::array<std::size_t, 3>> faces;
  faces.reserve(mesh.triangles.size());
  for (const Triangle& t : mesh.triangles) faces.push_back({t[0], t[1], t[2]});
  if (!pmp::is_polygon_soup_a_polygon_mesh(faces)) return std::nullopt;
  Surface out;
  pmp::polygon_soup_to_polygon_mesh(points, faces, out);
  return out;
}

Mesh to_mesh(Surface& surface) {
  surface.collect_garbage();
  Mesh out;
  out.vertices.reserve(surface.number_of_vertices());
  out.triangles.reserve(surface.number_of_faces());
  for (const auto v : surface.vertices()) {
    const Point& p = surface.point(v);
    out.vertices.push_back(
        {CGAL::to_double(p.x()), CGAL::to_double(p.y()), CGAL::to_double(p.z())});
  }
  for (const auto f : surface.faces()) {
    Triangle t{};
    std::size_t k = 0;
    for (const auto v : CGAL::vertices_around_face(surface.halfedge(f), surface))
      t[k++] = static_cast<std::uint32_t>(v);
    out.triangles.push_back(t);
  }
  return out;
}

bool finite(const Mesh& mesh) {
  return std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [](const Vec3& v) {
    return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
  });
}

bool indices_fit(const Mesh& mesh) {
  return std::all_of(mesh.triangles.begin(), mesh.triangles.end(), [&](const Triangle& t) {
    return t[0] < mesh.vertices.size() && t[1] < mesh.vertices.size() &&
           t[2] < mesh.vertices.size() && t[0] != t[1] && t[1] != t[2] && t[2] != t[0];
  });
}

struct Read {
  std::optional<Surface> surface;
  std::string reason;
};

Read read_operand(const Mesh& mesh, Operands operands = Operands::unknown) {
  if (mesh.empty()) return {std::nullopt, "is empty"};
  if (!finite(mesh)) return {std::nullopt, "has a vertex that is not a number"};
  if (!indices_fit(mesh)) return {std::nullopt, "has a triangle without three corners"};
  if (open_edges(mesh) != 0) return {std::nullopt, "is not closed"};
  std::optional<Surface> read = to_surface(mesh);
  if (!read || !CGAL::is_closed(*read))
    return {std::nullopt, "is not a surface: more than two faces meet at an edge"};
  Surface& surface = *read;
  const bool checked = operands == Operands::checked && signed_volume(mesh) > 0.0;
  const bool at_sight = operands == Operands::unknown && is_star_solid(mesh);
  if (checked || at_sight) return {std::move(read), {}};
  if (pmp::does_self_intersect(surface)) return {std::nullopt, "crosses itself"};
  if (signed_volume(mesh) < 0.0) pmp::reverse_face_orientations(surface);
  if (!pmp::does_bound_a_volume(surface))
    return {std::nullopt, "has shells turned the wrong way round"};
  return {std::move(read), {}};
}

Solid failed(std::string reason) {
  Solid out;
  out.reason = std::move(reason);
  return out;
}

Solid finished(Surface& surface) {
  Solid out;
  out.mesh = to_mesh(surface);
  out.ok = out.mesh.empty() || is_closed(out.mesh);
  if (!out.ok) return failed("the result is not closed");
  out.volume = out.mesh.empty() ? 0.0 : signed_volume(out.mesh);
  return out;
}

// Both operands are used up. Says what went wrong, or nothing.
std::string apply(Step step, Surface& a, Surface& b, Surface& out) {
  bool done = false;
  const auto check = CGAL::parameters::throw_on_self_intersection(true);
  try {
    switch (step) {
      case Step::unite:
        done = pmp::corefine_and_compute_union(a, b, out, check);
        break;
      case Step::subtract:
        done = pmp::corefine_and_compute_difference(a, b, out, check);
        break;
      case Step::common:
        done = pmp::corefine_and_compute_intersection(a, b, out, check);
        break;
    }
  } catch (const pmp::Corefinement::Self_intersection_exception&) {
    return "a solid crosses itself where the two meet";
  } catch (const std::exception& e) {
    return std::string("the boolean failed: ") + e.what();
  }
  return done ? std::string() : "the result would not be a solid (faces touch along an edge)";
}

Solid nothing() {
  Solid out;
  out.ok = true;
  return out;
}

struct Many {
  std::optional<Surface> surface;  // nothing when there was none
  std::string reason;
};

// The two smallest first, again and again: the large one is copied once. Ties in the list's order.
Many unite_surfaces(const std::vector<Mesh>& meshes, Operands operands = Operands::unknown) {
  std::vector<Surface> all;
  for (std::size_t k = 0; k < meshes.size(); ++k) {
    Read one = read_operand(meshes[k], operands);
    if (!one.surface) return {std::nullopt, "solid " + std::to_string(k) + " " + one.reason};
    all.push_back(std::move(*one.surface));
  }
  using Sized = std::pair<std::size_t, std::size_t>;  // faces, place in `all`
  std::priority_queue<Sized, std::vector<Sized>, std::greater<>> smallest;
  for (std::size_t k = 0; k < all.size(); ++k) smallest.emplace(all[k].number_of_faces(), k);
  while (smallest.size() > 1) {
    const std::size_t a = smallest.top().second;
    smallest.pop();
    const std::size_t b = smallest.top().second;
    smallest.pop();
    Surface out;
    std::string reason = apply(Step::unite, all[a], all[b], out);
    if (!reason.empty()) return {std::nullopt, std::move(reason)};
    all[a].clear();
    all[b] = std::move(out);
    smallest.emplace(all[b].number_of_faces(), b);
  }
  if (all.empty()) return {};
  return {std::move(all[smallest.top().second]), {}};
}

Solid combine(Step step, const Mesh& a, const Mesh& b) {
  Read first = read_operand(a);
  if (!first.surface) return failed("the first solid " + first.reason);
  Read second = read_operand(b);
  if (!second.surface) return failed("the second solid " + second.reason);
  Surface out;
  const std::string reason = apply(step, *first.surface, *second.surface, out);
  return reason.empty() ? finished(out) : failed(reason);
}

}  // namespace

std::string unfit_as_solid(const Mesh& mesh, Operands operands) {
  return read_operand(mesh, operands).reason;
}

Solid unite(const std::vector<Mesh>& meshes, Operands operands) {
  Many all = unite_surfaces(meshes, operands);
  if (!all.reason.empty()) return failed(all.reason);
  return all.surface ? finished(*all.surface) : nothing();
}

Solid subtract(const Mesh& a, const Mesh& b) {
  return b.empty() ? subtract(a, std::vector<Mesh>{}) : combine(Step::subtract, a, b);
}

Solid subtract(const Mesh& a, const std::vector<Mesh>& meshes) {
  Read first = read_operand(a);
  if (!first.surface) return failed("the first solid " + first.reason);
  Many rest = unite_surfaces(meshes);
  if (!rest.reason.empty()) return failed(rest.reason);
  if (!rest.surface) return finished(*first.surface);
  Surface out;
  const std::string reason = apply(Step::subtract, *first.surface, *rest.surface, out);
  return reason.empty() ? finished(out) : failed(reason);
}

Solid common_part(const Mesh& a, const Mesh& b) {
  return combine(Step::common, a, b);
}

}  // namespace hummock::geom
