// What the witness starts from: the triangles of an exported file, and nothing else of the program.
//
// A GLB as `hummock export` writes it, read by Assimp: a node for each part with its name, a
// material whose name says what a foot or claw meets ("mesh", "rock", "earth", "water" …). The
// corners of a part are welded again (the file doubles them for their normals). z up, metres.
//
// Rays are Embree's (robust), over triangles copied here.
#pragma once

#include <array>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "geometry/vec.h"

namespace hummock::witness {

using geom::Vec2;
using geom::Vec3;

struct Piece {
  std::string name;
  std::string surface;
  std::vector<Vec3> corners;
  std::vector<std::array<int, 3>> triangles;
  bool is_ground() const { return name == "ground"; }
  bool is_water() const { return surface == "water"; }
  bool is_leaves() const { return surface == "leaf"; }
  bool stops_a_body() const { return !is_water() && !is_leaves(); }
};

// Throws std::runtime_error for a file that cannot be read or has no ground.
std::vector<Piece> read_exported(const std::filesystem::path& glb);

struct Struck {
  Vec3 at, normal;  // the normal against the ray, unit
  int piece = -1;
};

class Rays {
 public:
  Rays();
  ~Rays();
  Rays(Rays&&) noexcept;
  void add(const Piece& piece, int number);
  void commit();
  bool free(Vec3 a, Vec3 b) const;  // nothing between a and b
  std::optional<Struck> first(Vec3 a, Vec3 b) const;

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace hummock::witness
