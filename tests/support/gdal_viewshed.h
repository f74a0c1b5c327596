// GDAL's viewshed on one of our grounds: the outside witness of the sight tests and benchmarks.
#pragma once

#include <string>
#include <vector>

#include "geometry/terrain/heightfield.h"

namespace hummock::tests {

// How GDAL interpolates between cells it has judged: along the edge (its default), the diagonal, or
// the higher or lower of the two.
enum class GdalMode { diagonal = 1, edge = 2, max = 3, min = 4 };

// The ground as a GDAL raster in memory, to be asked again and again.
class GdalGround {
 public:
  explicit GdalGround(const geom::Heightfield& ground);
  ~GdalGround();
  GdalGround(const GdalGround&) = delete;
  GdalGround& operator=(const GdalGround&) = delete;
  // 1 where a target `target` m above the ground is seen from `eye` m above node (i, j); indexed as
  // our grid. GDAL judges between cell centres; curvature 0.
  std::vector<unsigned char> seen(int i, int j, double eye, double target,
                                  GdalMode mode = GdalMode::edge) const;
  // The same raster as a GeoTIFF.
  void save_tiff(const std::string& path) const;

 private:
  geom::Grid grid_;
  void* dataset_ = nullptr;
};

}  // namespace hummock::tests
