#include "geometry/mesh/shells.h"

#include <cmath>

#include "geometry/disjoint_sets.h"
#include "geometry/vec.h"

namespace hummock::geom {

namespace {

struct Shell {
  std::vector<std::size_t> triangles;
  Box3 box;
  double volume = 0.0;  // m³, signed
  Vec3 first;           // a vertex of it
};

double six_volumes(Vec3 a, Vec3 b, Vec3 c) {
  return dot(a, cross(b, c));
}

std::vector<Shell> gather(const Mesh& mesh, const std::vector<int>& of_triangle) {
  std::vector<Shell> list;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto number = static_cast<std::size_t>(of_triangle[t]);
    const Triangle& v = mesh.triangles[t];
    if (number == list.size()) {
      list.emplace_back();
      list.back().first = mesh.vertices[v[0]];
    }
    Shell& shell = list[number];
    shell.triangles.push_back(t);
    for (const auto corner : v) shell.box.add(mesh.vertices[corner]);
    const Vec3 o = shell.first;
    shell.volume +=
        six_volumes(mesh.vertices[v[0]] - o, mesh.vertices[v[1]] - o, mesh.vertices[v[2]] - o) /
        6.0;
  }
  return list;
}

bool holds(const Box3& box, Vec3 p) {
  return p.x >= box.lo.x && p.x <= box.hi.x && p.y >= box.lo.y && p.y <= box.hi.y &&
         p.z >= box.lo.z && p.z <= box.hi.z;
}

// Solid angle of the shell about p over 4π, whichever way it faces (Van Oosterom & Strackee 1983,
// from memory): 1 inside, 0 outside.
bool inside(const Mesh& mesh, const Shell& shell, Vec3 p) {
  if (!holds(shell.box, p)) return false;
  double angle = 0.0;
  for (const std::size_t t : shell.triangles) {
    const Triangle& v = mesh.triangles[t];
    const Vec3 a = mesh.vertices[v[0]] - p;
    const Vec3 b = mesh.vertices[v[1]] - p;
    const Vec3 c = mesh.vertices[v[2]] - p;
    const double la = length(a);
    const double lb = length(b);
    const double lc = length(c);
    angle += 2.0 * std::atan2(six_volumes(a, b, c),
                              la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return std::abs(angle) > 2.0 * kPi;
}

}  // namespace

std::vector<int> shells(const Mesh& mesh) {
  DisjointSets sets(mesh.vertices.size());
  for (const Triangle& t : mesh.triangles) {
    sets.join(t[0], t[1]);
    sets.join(t[0], t[2]);
  }
  std::vector<int> number(mesh.vertices.size(), -1);
  std::vector<int> of_triangle;
  int next = 0;
  for (const Triangle& t : mesh.triangles) {
    int& shell = number[sets.root(t[0])];
    if (shell < 0) shell = next++;
    of_triangle.push_back(shell);
  }
  return of_triangle;
}

int turn_shells_outwards(Mesh& mesh) {
  const std::vector<Shell> list = gather(mesh, shells(mesh));
  std::vector<std::size_t> inwards;
  for (std::size_t k = 0; k < list.size(); ++k) {
    if (list[k].volume >= 0.0) continue;
    bool hollow = false;
    for (std::size_t other = 0; other < list.size() && !hollow; ++other) {
      hollow = other != k && inside(mesh, list[other], list[k].first);
    }
    if (!hollow) inwards.push_back(k);
  }
  for (const std::size_t k : inwards) {
    for (const std::size_t t : list[k].triangles) {
      std::swap(mesh.triangles[t][1], mesh.triangles[t][2]);
    }
  }
  return static_cast<int>(inwards.size());
}

}  // namespace hummock::geom
