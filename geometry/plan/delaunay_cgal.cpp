#include "geometry/plan/delaunay_cgal.h"

#include <CGAL/Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <utility>

namespace hummock::geom {

std::vector<Triangle> delaunay(std::span<const Vec2> points) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  using Vertex = CGAL::Triangulation_vertex_base_with_info_2<std::uint32_t, Kernel>;
  using Structure = CGAL::Triangulation_data_structure_2<Vertex>;
  std::vector<std::pair<Kernel::Point_2, std::uint32_t>> numbered;
  numbered.reserve(points.size());
  for (const Vec2& p : points) {
    numbered.emplace_back(Kernel::Point_2(p.x, p.y), static_cast<std::uint32_t>(numbered.size()));
  }
  const CGAL::Delaunay_triangulation_2<Kernel, Structure> net(numbered.begin(), numbered.end());
  std::vector<Triangle> triangles;
  triangles.reserve(net.number_of_faces());
  for (auto f = net.finite_faces_begin(); f != net.finite_faces_end(); ++f) {
    triangles.push_back({f->vertex(0)->info(), f->vertex(1)->info(), f->vertex(2)->info()});
  }
  return triangles;
}

}  // namespace hummock::geom
