#include "geometry/plan/triangulate_cgal.h"

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <algorithm>
#include <deque>
#include <utility>

namespace hummock::geom {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using VertexBase = CGAL::Triangulation_vertex_base_with_info_2<std::uint32_t, Kernel>;
using InfoFace = CGAL::Triangulation_face_base_with_info_2<int, Kernel>;
using FaceBase = CGAL::Constrained_triangulation_face_base_2<Kernel, InfoFace>;
using Data = CGAL::Triangulation_data_structure_2<VertexBase, FaceBase>;
using Cdt =
    CGAL::Constrained_Delaunay_triangulation_2<Kernel, Data, CGAL::No_constraint_intersection_tag>;

// Marks each face with the number of constraints crossed on the way from outside.
void mark_depth(Cdt& cdt) {
  for (auto f : cdt.all_face_handles()) f->info() = -1;
  std::deque<std::pair<Cdt::Face_handle, int>> todo{{cdt.infinite_face(), 0}};
  while (!todo.empty()) {
    const auto [face, depth] = todo.front();
    todo.pop_front();
    if (face->info() != -1) continue;
    face->info() = depth;
    for (int k = 0; k < 3; ++k) {
      const bool wall = face->is_constrained(k);
      // Same side first, so that a face is reached by its fewest crossings.
      if (wall)
        todo.emplace_back(face->neighbor(k), depth + 1);
      else
        todo.emplace_front(face->neighbor(k), depth);
    }
  }
}

}  // namespace

std::vector<Triangle> triangulate(const Polygon& polygon) {
  std::vector<Triangle> out;
  Cdt cdt;
  std::vector<Cdt::Vertex_handle> corner;
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const auto v = cdt.insert(Kernel::Point_2(polygon[k].x, polygon[k].y));
    v->info() = static_cast<std::uint32_t>(k);
    corner.push_back(v);
  }
  if (cdt.number_of_vertices() != polygon.size() || cdt.dimension() < 2) return out;
  try {
    for (std::size_t k = 0; k < corner.size(); ++k)
      cdt.insert_constraint(corner[k], corner[(k + 1) % corner.size()]);
  } catch (const std::exception&) {  // crossing edges
    return out;
  }
  mark_depth(cdt);
  for (const auto f : cdt.finite_face_handles())
    if (f->info() % 2 == 1)
      out.push_back({f->vertex(0)->info(), f->vertex(1)->info(), f->vertex(2)->info()});
  return out;
}

std::vector<std::array<Vec2, 3>> triangles_of(const Polygon& polygon) {
  std::vector<std::array<Vec2, 3>> out;
  for (const auto& [a, b, c] : triangulate(polygon))
    out.push_back({polygon[a], polygon[b], polygon[c]});
  return out;
}

}  // namespace hummock::geom
