#include "geometry/mesh/mesh_distance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace hummock::geom {

namespace {

using Corners = Vec3[3];

void take(NearestPair& best, Vec3 p, Vec3 q) {
  const double d = distance(p, q);
  if (d < best.distance) best = {d, p, q};
}

double clamped(double t) {
  return std::clamp(t, 0.0, 1.0);
}

// Nearest points of the segments p–q and r–s.
void take_segments(NearestPair& best, Vec3 p, Vec3 q, Vec3 r, Vec3 s) {
  const Vec3 d = q - p, e = s - r, w = p - r;
  const double a = dot(d, d), b = dot(d, e), c = dot(e, e), f = dot(e, w), g = dot(d, w);
  const double det = a * c - b * b;
  double t = det > 1e-14 * a * c ? clamped((b * f - g * c) / det) : 0.0;
  double u = c > 0.0 ? (b * t + f) / c : 0.0;
  if (u < 0.0 || u > 1.0) {
    u = clamped(u);
    t = a > 0.0 ? clamped((b * u - g) / a) : 0.0;
  }
  take(best, p + d * t, r + e * u);
}

// Nearest point of the triangle's face to p, when it lies over the face (edges are looked at
// apart).
bool face_point(Vec3 p, const Corners& t, Vec3& out) {
  const Vec3 ab = t[1] - t[0], ac = t[2] - t[0];
  const Vec3 n = cross(ab, ac);
  const double nn = dot(n, n);
  if (nn <= 0.0) return false;
  const Vec3 w = p - t[0];
  const double v = dot(cross(w, ac), n) / nn;
  const double u = dot(cross(ab, w), n) / nn;
  if (u < 0.0 || v < 0.0 || u + v > 1.0) return false;
  out = t[0] + ab * v + ac * u;
  return true;
}

bool pierces(Vec3 p, Vec3 q, const Corners& t, Vec3& at) {
  const Vec3 n = cross(t[1] - t[0], t[2] - t[0]);
  const double dp = dot(n, p - t[0]), dq = dot(n, q - t[0]);
  if (dp * dq > 0.0 || dp == dq) return false;
  at = lerp(p, q, dp / (dp - dq));
  Vec3 on;
  return face_point(at, t, on);
}

}  // namespace

NearestPair nearest_of_triangles(const Vec3 (&first)[3], const Vec3 (&second)[3]) {
  NearestPair best{1e300, {}, {}};
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t j = (i + 1) % 3;
    Vec3 at;
    if (pierces(first[i], first[j], second, at) || pierces(second[i], second[j], first, at)) {
      return {0.0, at, at};
    }
    if (face_point(first[i], second, at)) take(best, first[i], at);
    if (face_point(second[i], first, at)) take(best, at, second[i]);
    for (std::size_t k = 0; k < 3; ++k) {
      take_segments(best, first[i], first[j], second[k], second[(k + 1) % 3]);
    }
  }
  return best;
}

struct MeshTree::Inner {
  struct Node {
    Box3 box;
    int left = -1, right = -1;  // children; -1: a leaf
    int from = 0, to = 0;       // of `order`
  };
  std::vector<std::array<Vec3, 3>> triangles;
  std::vector<Node> nodes;
  Box3 whole;

  explicit Inner(const Mesh& mesh) {
    for (const Triangle& t : mesh.triangles) {
      triangles.push_back({mesh.vertices[t[0]], mesh.vertices[t[1]], mesh.vertices[t[2]]});
    }
    if (triangles.empty()) return;
    split(0, static_cast<int>(triangles.size()));
    whole = nodes.front().box;
  }

  int split(int from, int to) {
    const int index = static_cast<int>(nodes.size());
    nodes.push_back({{}, -1, -1, from, to});
    Box3 box;
    for (int k = from; k < to; ++k) {
      for (const Vec3& v : triangles[static_cast<std::size_t>(k)]) box.add(v);
    }
    nodes.back().box = box;
    if (to - from <= 4) return index;
    const int middle = (from + to) / 2;
    const Vec3 size = box.hi - box.lo;
    const auto key = [&](const std::array<Vec3, 3>& t) {
      const Vec3 sum = t[0] + t[1] + t[2];
      if (size.x >= size.y && size.x >= size.z) return sum.x;
      return size.y >= size.z ? sum.y : sum.z;
    };
    std::nth_element(triangles.begin() + from, triangles.begin() + middle, triangles.begin() + to,
                     [&](const auto& p, const auto& q) { return key(p) < key(q); });
    const int left = split(from, middle);
    const int right = split(middle, to);
    nodes[static_cast<std::size_t>(index)].left = left;
    nodes[static_cast<std::size_t>(index)].right = right;
    return index;
  }
};

namespace {

double gap(double lo0, double hi0, double lo1, double hi1) {
  return std::max({0.0, lo1 - hi0, lo0 - hi1});
}

double box_distance(const Box3& p, const Box3& q) {
  return std::hypot(gap(p.lo.x, p.hi.x, q.lo.x, q.hi.x), gap(p.lo.y, p.hi.y, q.lo.y, q.hi.y),
                    gap(p.lo.z, p.hi.z, q.lo.z, q.hi.z));
}

double spread(const Box3& box) {
  return length(box.hi - box.lo);
}

template <class Tree>
void descend(const Tree& a, int i, const Tree& b, int j, NearestPair& best) {
  const auto& p = a.nodes[static_cast<std::size_t>(i)];
  const auto& q = b.nodes[static_cast<std::size_t>(j)];
  if (box_distance(p.box, q.box) >= best.distance) return;
  if (p.left < 0 && q.left < 0) {
    for (int k = p.from; k < p.to; ++k) {
      for (int m = q.from; m < q.to; ++m) {
        const auto& t = a.triangles[static_cast<std::size_t>(k)];
        const auto& u = b.triangles[static_cast<std::size_t>(m)];
        const Vec3 first[3] = {t[0], t[1], t[2]}, second[3] = {u[0], u[1], u[2]};
        const NearestPair pair = nearest_of_triangles(first, second);
        if (pair.distance < best.distance) best = pair;
      }
    }
    return;
  }
  const bool open_first = q.left < 0 || (p.left >= 0 && spread(p.box) >= spread(q.box));
  const int near = open_first ? p.left : q.left;
  const int far = open_first ? p.right : q.right;
  const auto& tree = open_first ? a : b;
  const Box3& other = open_first ? q.box : p.box;
  const double dn = box_distance(tree.nodes[static_cast<std::size_t>(near)].box, other);
  const double df = box_distance(tree.nodes[static_cast<std::size_t>(far)].box, other);
  for (const int child : dn <= df ? std::array{near, far} : std::array{far, near}) {
    if (open_first) {
      descend(a, child, b, j, best);
    } else {
      descend(a, i, b, child, best);
    }
  }
}

template <class Tree>
void descend_to(const Tree& a, int i, Vec3 p, NearestPair& best) {
  const auto& node = a.nodes[static_cast<std::size_t>(i)];
  Box3 at;
  at.add(p);
  if (box_distance(node.box, at) >= best.distance) return;
  if (node.left >= 0) {
    descend_to(a, node.left, p, best);
    descend_to(a, node.right, p, best);
    return;
  }
  for (int k = node.from; k < node.to; ++k) {
    const auto& t = a.triangles[static_cast<std::size_t>(k)];
    const Vec3 corners[3] = {t[0], t[1], t[2]};
    Vec3 on;
    if (face_point(p, corners, on)) take(best, p, on);
    for (std::size_t m = 0; m < 3; ++m) {
      const Vec3 a0 = t[m], d = t[(m + 1) % 3] - a0;
      const double len2 = dot(d, d);
      take(best, p, a0 + d * (len2 > 0.0 ? clamped(dot(p - a0, d) / len2) : 0.0));
    }
  }
}

using Look = std::function<bool(const Corners&, const Corners&)>;

template <class Tree>
bool look_through(const Tree& a, int i, const Tree& b, int j, double within, const Look& look) {
  const auto& p = a.nodes[static_cast<std::size_t>(i)];
  const auto& q = b.nodes[static_cast<std::size_t>(j)];
  if (box_distance(p.box, q.box) >= within) return true;
  if (p.left >= 0 && (q.left < 0 || spread(p.box) >= spread(q.box)))
    return look_through(a, p.left, b, j, within, look) &&
           look_through(a, p.right, b, j, within, look);
  if (q.left >= 0)
    return look_through(a, i, b, q.left, within, look) &&
           look_through(a, i, b, q.right, within, look);
  for (int k = p.from; k < p.to; ++k) {
    for (int m = q.from; m < q.to; ++m) {
      const auto& t = a.triangles[static_cast<std::size_t>(k)];
      const auto& u = b.triangles[static_cast<std::size_t>(m)];
      const Vec3 first[3] = {t[0], t[1], t[2]}, second[3] = {u[0], u[1], u[2]};
      if (!look(first, second)) return false;
    }
  }
  return true;
}

}  // namespace

MeshTree::MeshTree(const Mesh& mesh) : inner_(std::make_unique<Inner>(mesh)) {}
MeshTree::~MeshTree() = default;
MeshTree::MeshTree(MeshTree&&) noexcept = default;
MeshTree& MeshTree::operator=(MeshTree&&) noexcept = default;

const Box3& MeshTree::box() const {
  return inner_->whole;
}

bool MeshTree::empty() const {
  return inner_->triangles.empty();
}

NearestPair nearest(const MeshTree& first, const MeshTree& second, double within) {
  NearestPair best{within, {}, {}};
  if (!first.empty() && !second.empty()) descend(*first.inner_, 0, *second.inner_, 0, best);
  return best;
}

double distance_to(const MeshTree& tree, Vec3 p, double within) {
  NearestPair best{within, {}, {}};
  if (!tree.empty()) descend_to(*tree.inner_, 0, p, best);
  return best.distance;
}

void near_triangles(const MeshTree& first, const MeshTree& second, double within,
                    const Look& look) {
  if (first.empty() || second.empty()) return;
  look_through(*first.inner_, 0, *second.inner_, 0, within, look);
}

}  // namespace hummock::geom
