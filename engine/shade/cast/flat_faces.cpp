#include "engine/shade/cast/flat_faces.h"

#include <algorithm>
#include <optional>
#include <unordered_map>
#include <utility>

namespace hummock::shade {
namespace {

constexpr double kStraight = 1e-9;  // sine of a corner that is none

using Loop = std::vector<std::uint32_t>;

std::uint64_t side(std::uint32_t from, std::uint32_t to) {
  return std::uint64_t{from} << 32U | to;
}

// Without corners that are none; nothing where it is not convex.
std::optional<Loop> convex(const geom::Mesh& mesh, const Loop& loop, Vec3 normal) {
  Loop out;
  const std::size_t n = loop.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Vec3 b = mesh.vertices[loop[k]];
    const Vec3 in = b - mesh.vertices[loop[(k + n - 1) % n]];
    const Vec3 on = mesh.vertices[loop[(k + 1) % n]] - b;
    const double turn = dot(cross(in, on), normal), size = length(in) * length(on);
    if (turn < -kStraight * size) return std::nullopt;
    if (turn > kStraight * size)
      out.push_back(loop[k]);
    else if (dot(in, on) <= 0.0)
      return std::nullopt;
  }
  if (out.size() < 3 || out.size() > kMostCorners) return std::nullopt;
  return out;
}

class Merging {
 public:
  Merging(const geom::Mesh& mesh, const std::vector<Vec3>& normals,
          const std::vector<std::uint32_t>& of)
      : mesh_(mesh) {
    for (const std::uint32_t id : of) {
      if (normals[id] == Vec3{}) continue;
      const geom::Triangle& t = mesh.triangles[id];
      faces_.push_back({{t[0], t[1], t[2]}, normals[id]});
      own(faces_.size() - 1);
    }
  }

  std::vector<FlatFace> run() {
    for (std::size_t f = 0; f < faces_.size(); ++f)
      while (!faces_[f].corners.empty() && grow(f)) {
      }
    std::erase_if(faces_, [](const FlatFace& f) { return f.corners.empty(); });
    return std::move(faces_);
  }

 private:
  void own(std::size_t f) {
    const Loop& l = faces_[f].corners;
    for (std::size_t k = 0; k < l.size(); ++k) owner_[side(l[k], l[(k + 1) % l.size()])] = f;
  }
  void disown(std::size_t f) {
    const Loop& l = faces_[f].corners;
    for (std::size_t k = 0; k < l.size(); ++k) {
      const auto at = owner_.find(side(l[k], l[(k + 1) % l.size()]));
      if (at != owner_.end() && at->second == f) owner_.erase(at);
    }
  }

  // Joins one neighbour to it; false if there is none.
  bool grow(std::size_t f) {
    const Loop& l = faces_[f].corners;
    for (std::size_t k = 0; k < l.size(); ++k) {
      const auto over = owner_.find(side(l[(k + 1) % l.size()], l[k]));
      if (over == owner_.end() || over->second == f || !in_plane(f, over->second)) continue;
      const std::size_t other = over->second;
      const auto both = convex(mesh_, joined(l, k, faces_[other].corners), faces_[f].normal);
      if (!both) continue;
      disown(f);
      disown(other);
      faces_[other].corners.clear();
      faces_[f].corners = *both;
      own(f);
      return true;
    }
    return false;
  }

  bool in_plane(std::size_t f, std::size_t other) const {
    constexpr double kTurned = 1e-6;  // rad between the normals
    const FlatFace &a = faces_[f], &b = faces_[other];
    if (length(a.normal - b.normal) > kTurned) return false;
    const Vec3 at = mesh_.vertices[a.corners.front()];
    return std::all_of(b.corners.begin(), b.corners.end(), [&](std::uint32_t v) {
      return std::abs(dot(a.normal, mesh_.vertices[v] - at)) <= kFlat;
    });
  }

  // `l` from the end of its side k round to its start, then `other` on the way back.
  static Loop joined(const Loop& l, std::size_t k, const Loop& other) {
    Loop out;
    const std::uint32_t from = l[k];
    for (std::size_t j = 1; j <= l.size(); ++j) out.push_back(l[(k + j) % l.size()]);
    const auto start =
        static_cast<std::size_t>(std::find(other.begin(), other.end(), from) - other.begin());
    for (std::size_t j = 1; j + 1 < other.size(); ++j)
      out.push_back(other[(start + j) % other.size()]);
    return out;
  }

  const geom::Mesh& mesh_;
  std::vector<FlatFace> faces_;
  std::unordered_map<std::uint64_t, std::size_t> owner_;  // of each side, in its direction
};

}  // namespace

std::vector<FlatFace> flat_faces(const geom::Mesh& mesh, const std::vector<Vec3>& normals,
                                 const std::vector<std::uint32_t>& of) {
  return Merging(mesh, normals, of).run();
}

}  // namespace hummock::shade
