// The fence unrolled into one upright plane: x metres along it from its first panel, y height above
// datum. Everything solid that lies in it, near any place of it.
#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "engine/openings/barrier_lines.h"
#include "geometry/plan/free_circle.h"

namespace hummock::openings {

// A place where gaps may meet: an end of a sheet or a leaf, a side of a drain.
struct Meeting {
  double x = 0.0;
  double joint = 0.0;            // m, the upright gap there; 0 = none
  std::string sheet;             // the section it is in
  std::set<std::string> things;  // sections, gates, drains and roof within reach of it
};

class UnrolledFence {
 public:
  explicit UnrolledFence(const Model& model);

  const std::vector<Meeting>& meetings() const { return meetings_; }

  // The largest free circle about a meeting whose radius is above `above`, or radius 0.
  geom::Circle largest_circle(const Meeting& meeting, double above, double precision) const;

  geom::Vec3 place(Vec2 on_plane) const;  // on the site

 private:
  struct Sheet {
    Vec2 a, along;
    double from = 0.0, length = 0.0;  // m along the fence
    double gap_after = 0.0;           // m in plan to the next sheet
    std::vector<geom::SolidPiece> solid;
    std::vector<Vec2> ceiling;  // how high a circle's middle may lie
  };

  struct Made;
  void add_sheet(const Model& model, std::size_t panel, const Made& made);
  void add_drains(const Model& model, std::size_t panel);
  void add_joints(const Model& model);

  void name_things(const Model& model, std::size_t drains, Meeting& meeting) const;
  // Numbers [first, last) of sheets that may lie within a stretch of the way round.
  std::pair<std::size_t, std::size_t> about(double from, double to) const;

  std::vector<Sheet> sheets_;
  std::vector<Meeting> meetings_;
  double round_ = 0.0;    // m, the whole way
  double longest_ = 0.0;  // m, of the sheets
};

}  // namespace hummock::openings
