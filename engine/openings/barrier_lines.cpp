#include "engine/openings/barrier_lines.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_map>

#include "engine/model/fence_foot.h"

namespace hummock::openings {

namespace {

constexpr double kCell = 1.0;     // m, of the hash
constexpr double kOnLine = 1e-6;  // m

using barrier::Look;
using barrier::Stretch;
using barrier::StretchKind;

int cell_of(double v) {
  return static_cast<int>(std::floor(v / kCell));
}

// Which lines run near a place.
class LineHash {
 public:
  explicit LineHash(const std::vector<BarrierLine>& lines) {
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const double len = geom::distance(lines[k].a, lines[k].b);
      const int n = 1 + static_cast<int>(2.0 * len / kCell);
      for (int i = 0; i <= n; ++i) {
        const Vec2 p = lerp(lines[k].a, lines[k].b, static_cast<double>(i) / n);
        for (int d = 0; d < 9; ++d) {
          auto& list = cells_[key(cell_of(p.x) + d % 3 - 1, cell_of(p.y) + d / 3 - 1)];
          if (list.empty() || list.back() != static_cast<int>(k)) {
            list.push_back(static_cast<int>(k));
          }
        }
      }
    }
  }

  // Lines near any part of the box, each once.
  std::vector<int> near(const geom::Box3& box) const {
    std::vector<int> found;
    for (int i = cell_of(box.lo.x); i <= cell_of(box.hi.x); ++i) {
      for (int j = cell_of(box.lo.y); j <= cell_of(box.hi.y); ++j) {
        const auto it = cells_.find(key(i, j));
        if (it != cells_.end()) found.insert(found.end(), it->second.begin(), it->second.end());
      }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  }

 private:
  static std::uint64_t key(int i, int j) {
    return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(i)) << 32) |
           static_cast<std::uint32_t>(j);
  }
  std::unordered_map<std::uint64_t, std::vector<int>> cells_;
};

using Corners = std::array<geom::Vec3, 3>;

// The triangle in the line's own plane, when it lies in it and over some of the line: a skirt's may
// reach over several panels.
bool lies_in(const BarrierLine& line, const Corners& corner, BandPiece& out) {
  constexpr double kOver = 1e-9;  // m
  const Vec2 along = geom::unit(line.b - line.a);
  const double len = geom::distance(line.a, line.b);
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec2 w = xy(corner[k]) - line.a;
    if (std::abs(cross(along, w)) > kOnLine) return false;
    out[k] = {dot(along, w), corner[k].z};
  }
  const auto [from, to] = std::minmax({out[0].x, out[1].x, out[2].x});
  return to > kOver && from < len - kOver;
}

// The straight piece in which the line's plane cuts the triangle.
bool cut_by(const BarrierLine& line, const Corners& corner, BandPiece& out) {
  const Vec2 along = geom::unit(line.b - line.a);
  std::size_t n = 0;
  for (std::size_t k = 0; k < 3 && n < 2; ++k) {
    const geom::Vec3 p = corner[k], q = corner[(k + 1) % 3];
    const double dp = cross(along, xy(p) - line.a), dq = cross(along, xy(q) - line.a);
    if ((dp >= 0.0) == (dq >= 0.0)) continue;
    const geom::Vec3 at = lerp(p, q, dp / (dp - dq));
    out[n++] = {dot(along, xy(at) - line.a), at.z};
  }
  out[2] = out[1];
  return n == 2 && std::max(out[0].x, out[1].x) > 0.0 &&
         std::min(out[0].x, out[1].x) < geom::distance(line.a, line.b);
}

bool owns(const BarrierLine& line, const Model& model, const Part& part, int part_index) {
  if (line.leaf_part >= 0) return line.leaf_part == part_index;
  return part.kind == PartKind::panel &&
         model.panels[static_cast<std::size_t>(line.panel)].section == part.source;
}

void give(std::vector<BarrierLine>& lines, const Model& model, int part_index, int line_index,
          const Corners& corner) {
  const Part& part = model.parts[static_cast<std::size_t>(part_index)];
  BarrierLine& line = lines[static_cast<std::size_t>(line_index)];
  BandPiece piece;
  if (part.kind == PartKind::footing) {
    if (cut_by(line, corner, piece)) line.footing.push_back(piece);
  } else if (part.kind == PartKind::skirt) {
    if (lies_in(line, corner, piece)) line.skirt.push_back(piece);
  } else if (owns(line, model, part, part_index) && lies_in(line, corner, piece)) {
    line.sheet.push_back(piece);
  }
}

// The plan line of an upright sheet: its two outermost points.
BarrierLine line_of_leaf(const Part& part) {
  BarrierLine line;
  double longest = -1.0;
  for (const geom::Vec3& p : part.mesh.vertices) {
    for (const geom::Vec3& q : part.mesh.vertices) {
      if (geom::distance(xy(p), xy(q)) <= longest) continue;
      longest = geom::distance(xy(p), xy(q));
      line.a = xy(p);
      line.b = xy(q);
    }
  }
  return line;
}

void add_leaf(const Model& model, const Stretch& leaf, std::vector<BarrierLine>& lines) {
  if (leaf.part < 0 || model.parts[static_cast<std::size_t>(leaf.part)].mesh.empty()) return;
  BarrierLine line = line_of_leaf(model.parts[static_cast<std::size_t>(leaf.part)]);
  line.leaf_part = leaf.part;
  line.gateway = leaf.gateway;
  lines.push_back(line);
}

void add_vestibule_wall(const Stretch& wall, std::vector<BarrierLine>& lines) {
  BarrierLine line;
  line.a = wall.a;
  line.b = wall.b;
  line.leaf_part = wall.part;
  line.gateway = wall.gateway;
  lines.push_back(line);
}

void add_panel(const Model& model, const Stretch& stretch, std::vector<BarrierLine>& lines) {
  const Panel& panel = model.panels[static_cast<std::size_t>(stretch.panel)];
  const Section& section = model.site.boundary.sections[static_cast<std::size_t>(panel.section)];
  BarrierLine line;
  line.a = stretch.a;
  line.b = stretch.b;
  line.panel = stretch.panel;
  line.set_in_footing = section.fit == Fit::raked;
  line.foot_follows = follows_ground(section);
  line.foot_a = panel.foot_a - (line.foot_follows ? panel.ground_a : 0.0);
  line.foot_b = panel.foot_b - (line.foot_follows ? panel.ground_b : 0.0);
  lines.push_back(line);
}

// Panels in the order of the fence, then the leaves gate by gate, then the vestibules' walls.
std::vector<BarrierLine> bare_lines(const Model& model) {
  std::vector<BarrierLine> panels, walls;
  std::vector<BarrierLine> leaves;
  for (const barrier::Chain& chain : barrier::barrier_of(model).chains) {
    for (const barrier::Run& run : runs_of(chain, barrier::Join::panel, look)) {
      const Stretch& s = run.whole;
      if (s.kind == StretchKind::panel) add_panel(model, s, panels);
      if (s.kind == StretchKind::gate || s.kind == StretchKind::second_gate) {
        add_leaf(model, s, leaves);
      }
      if (s.kind == StretchKind::vestibule_wall) add_vestibule_wall(s, walls);
    }
  }
  std::stable_sort(leaves.begin(), leaves.end(), [](const BarrierLine& p, const BarrierLine& q) {
    return p.gateway < q.gateway;
  });
  panels.insert(panels.end(), leaves.begin(), leaves.end());
  panels.insert(panels.end(), walls.begin(), walls.end());
  return panels;
}

bool stands_in_line(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate || kind == PartKind::vestibule ||
         kind == PartKind::skirt || kind == PartKind::footing;
}

}  // namespace

Look look(const Stretch& s) {
  if (s.told_elsewhere) return Look::told_elsewhere;
  switch (s.kind) {
    case StretchKind::panel:
    case StretchKind::gate:
    case StretchKind::vestibule_wall:
    case StretchKind::second_gate:
      return s.stands ? Look::walked : Look::nothing_stands;
    case StretchKind::house_wall:
      return Look::built_down;
    case StretchKind::house_door:
      return Look::sill_is_drawn;
    case StretchKind::roof_edge:
      return Look::in_the_air;
  }
  return Look::walked;
}

double half_joint(const Model& model, const Panel& panel) {
  return 0.5 * model.site.boundary.sections[static_cast<std::size_t>(panel.section)].joint_gap;
}

std::vector<BarrierLine> barrier_lines(const Model& model) {
  std::vector<BarrierLine> lines = bare_lines(model);
  const LineHash hash(lines);
  for (std::size_t p = 0; p < model.parts.size(); ++p) {
    const Part& part = model.parts[p];
    if (!stands_in_line(part.kind)) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      const Corners corner{part.mesh.vertices[t[0]], part.mesh.vertices[t[1]],
                           part.mesh.vertices[t[2]]};
      geom::Box3 box;
      for (const geom::Vec3& v : corner) box.add(v);
      for (const int line : hash.near(box)) {
        give(lines, model, static_cast<int>(p), line, corner);
      }
    }
  }
  return lines;
}

}  // namespace hummock::openings
