// A flat polygon in space as triangles.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock {

// `corners` index `vertices`, in order round the face, three or more. A convex face is cut as a
// fan, any other by ear clipping in the plane it faces (its mean normal by Newell's sums:
// Sutherland, Sproull & Schumacker 1974). A face without area gives nothing.
std::vector<geom::Triangle> face_triangles(const std::vector<geom::Vec3>& vertices,
                                           std::span<const std::uint32_t> corners);

}  // namespace hummock
