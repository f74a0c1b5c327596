// The beam over a tile of ground without a ray for every node.
//
// Parts. A point's shadow coordinates (x − z·run.x, y − z·run.y) are shared by all points on its
// line to the sun, so a flat face shades exactly the nodes whose shadow coordinates lie inside the
// face's own and which it stands above. What casts is cut into few flat pieces
// (engine/shade/cast/piece.h), laid out at a sun once for all tiles near each other
// (engine/shade/cast/near_shadows.h) and scan-converted over each; sides shared by two faces belong
// to exactly one (a side is always evaluated from its lower end), so the seam of two panels is not
// counted twice nor missed, and a volume's ways in and out pair up.
// Ground. TerrainClear decides for the tile; then, where a sweep along the azimuth was made,
// that decides for the nodes (engine/shade/beam/ground_sweep.h), else TerrainClear for the tile's
// quarters' quarters. What they leave open goes to rays, as do the nodes within the shadow box of a
// heavy part (more triangles than nodes it could shade).
//
// Crowns are looked through in closed form (engine/shade/beam/round_shade.h).
//
// The answer differs from the rays' only where a shadow's edge passes within rounding of float32
// relative to the tile (below a tenth of a millimetre for parts within 100 m).
#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "engine/shade/beam/box_tree.h"
#include "engine/shade/beam/casters.h"
#include "engine/shade/beam/ground_sweep.h"
#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/ray_beam.h"
#include "engine/shade/beam/sun_ray.h"
#include "engine/shade/beam/terrain_clear.h"
#include "engine/shade/cast/near_shadows.h"
#include "engine/shade/cast/tile_beam.h"

namespace hummock::shade {

class FastBeam {
 public:
  // The model must outlive it. `far`: of the same land, so that it is not looked at again.
  explicit FastBeam(const Model& model, std::shared_ptr<const FarHorizon> far = {});

  // What the caller already knows of the ground's own shade.
  struct Ground {
    bool clear = false;                    // it does not shade the tile
    const GroundStatus* status = nullptr;  // a sweep for this sun over the tile's grid
  };
  // All casters, or only those listed (rising).
  void tile(const Tile& tile, const SunRay& sun, const sun::Date& date, TileBeam& beam) const;
  void tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
            std::span<const int> casters, Ground ground, TileBeam& beam) const;

  // The same for several tiles near each other: first what stands near is laid out, once for all
  // nodes in `box`, then each tile is asked.
  void lay_out(const geom::Box3& box, const SunRay& sun, const sun::Date& date,
               std::span<const int> casters, NearShadows& shadows) const {
    shadows.lay_out(casters_, pieces_, heavy_, box, sun, date, casters);
  }
  void tile(const Tile& tile, const NearShadows& shadows, Ground ground, TileBeam& beam) const;

  // Sweeps of the ground for those of the suns for which it pays: the terrain bounds leave more
  // than a few tiles open, and the tiles lie on the ground's own nodes. Others stay empty.
  std::vector<GroundStatus> sweeps(const std::vector<Tile>& tiles, const geom::Grid& grid,
                                   std::span<const SunRay> suns) const;

  // Those that could shade the box from some sun of the range (may_shade.h), rising.
  std::vector<int> near(const geom::Box3& box, const RunRange& run, Vec2 along) const {
    return tree_.near(box, run, along);
  }
  std::vector<int> near(const geom::Box3& box, std::span<const SunRay> suns) const {
    return tree_.near(box, suns);
  }

  // Which casters are bare on that date: what light passes depends on no more of it.
  std::vector<bool> bare_at(const sun::Date& date) const;

  const std::vector<Caster>& casters() const { return casters_; }
  const TerrainClear& terrain() const { return terrain_; }
  const RayBeam& rays() const { return *rays_; }
  const std::vector<int>& all() const { return all_; }

 private:
  void take_ground(const Tile& tile, const SunRay& sun, const Ground& ground, TileBeam& beam,
                   std::vector<int>& open) const;

  std::vector<Caster> casters_;
  std::vector<Pieces> pieces_;  // of each
  BoxTree tree_;
  std::vector<bool> heavy_;
  std::vector<int> all_;
  TerrainClear terrain_;
  GroundSweep sweep_;
  geom::Grid grid_;
  std::unique_ptr<RayBeam> rays_;
};

}  // namespace hummock::shade
