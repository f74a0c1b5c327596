// Overhangs. Each panel's straight overhang lies in one plane: through the panel's top and parallel
// to the direction `angle` above the horizontal, straight in from the fence. A curved one is an arc
// in facets (overhang_profile.h), each in one plane. Cut at the corners as
// corner_cut.h says, so a panel may come out as a trapezium, a triangle or a clipped corner; near a
// sharp corner the cut runs over several panels. Two neighbours of the same length and angle whose
// tops fall differently are fastened at one tip (the mean height). Where lengths or angles differ
// the upright opening between the two cuts is real and stays.
#include <algorithm>
#include <cmath>

#include "engine/model/build/bays.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/build/corner_cut.h"
#include "engine/model/build/overhang_profile.h"
#include "engine/model/optics.h"

namespace hummock {
namespace {

const Section& section_of_panel(const Model& model, const Panel& p) {
  return model.site.boundary.sections[static_cast<std::size_t>(p.section)];
}

const std::optional<Overhang>& overhang_of_edge(const Model& model, std::size_t edge) {
  static const std::optional<Overhang> none;
  const int s = section_of(model.site.boundary, model.edge_of[edge % model.edge_of.size()]);
  return s < 0 ? none : model.site.boundary.sections[static_cast<std::size_t>(s)].overhang;
}

std::optional<double> reach_of_edge(const Model& model, std::size_t edge) {
  const auto& o = overhang_of_edge(model, edge);
  if (!o) return std::nullopt;
  return profile_of(*o).reach;
}

// A corner of the sheet: s along the edge, u from the fence (0) to the tip (1).
struct Corner {
  double s, u;
};

// Keeps the part where side(corner) >= 0; side is linear.
template <class Side>
std::vector<Corner> cut(const std::vector<Corner>& shape, const Side& side) {
  std::vector<Corner> kept;
  for (std::size_t k = 0; k < shape.size(); ++k) {
    const Corner p = shape[k];
    const Corner q = shape[(k + 1) % shape.size()];
    const double sp = side(p);
    const double sq = side(q);
    if (sp >= 0.0) kept.push_back(p);
    if ((sp > 0.0 && sq < 0.0) || (sp < 0.0 && sq > 0.0)) {
      const double t = sp / (sp - sq);
      kept.push_back({p.s + (q.s - p.s) * t, p.u + (q.u - p.u) * t});
    }
  }
  return kept;
}

struct EdgeFrame {
  Vec2 origin, along, inside;
  double length = 0.0;
  double reach = 0.0;  // plan width of the overhang
  OverhangProfile profile;
  EndCuts cuts;
};

EdgeFrame frame_of(const Model& model, std::size_t edge, const Overhang& o) {
  const std::size_t n = model.outline.size();
  EdgeFrame f;
  f.origin = model.outline[edge];
  f.along = geom::unit(model.outline[(edge + 1) % n] - f.origin);
  f.inside = geom::left_of(f.along);
  f.length = edge_length(model.outline, static_cast<int>(edge));
  f.profile = profile_of(o);
  f.reach = f.profile.reach;
  f.cuts = end_cuts(model.outline, static_cast<int>(edge), f.reach,
                    reach_of_edge(model, edge + n - 1), reach_of_edge(model, edge + 1));
  return f;
}

// The panel's share of the edge's sheet, counter-clockwise in (s, u).
std::vector<Corner> share_of(const EdgeFrame& f, double s0, double s1) {
  constexpr double kAtEnd = 1e-6;
  const double far = std::abs(f.reach) * 2e3 + 1.0;
  const double lo = s0 < kAtEnd ? s0 - far : s0;
  const double hi = s1 > f.length - kAtEnd ? s1 + far : s1;
  std::vector<Corner> shape{{lo, 0.0}, {hi, 0.0}, {hi, 1.0}, {lo, 1.0}};
  shape = cut(shape, [&](Corner c) { return c.s - f.cuts.start_lean * f.reach * c.u; });
  return cut(shape, [&](Corner c) { return f.length + f.cuts.end_lean * f.reach * c.u - c.s; });
}

struct PanelPlane {
  const EdgeFrame& frame;
  double s0, s1, top_a, top_b;
  Vec3 at(Corner c) const {
    const double z = top_a + (top_b - top_a) * (c.s - s0) / (s1 - s0) + frame.profile.rise_at(c.u);
    return at_height(frame.origin + frame.along * c.s + frame.inside * (frame.reach * c.u), z);
  }
};

// First and last corner along the edge among those at the given u.
std::pair<Corner, Corner> extent(const std::vector<Corner>& shape, double u) {
  std::pair<Corner, Corner> ends{{1e300, u}, {-1e300, u}};
  for (const Corner& c : shape) {
    if (std::abs(c.u - u) > 1e-12) continue;
    if (c.s < ends.first.s) ends.first = c;
    if (c.s > ends.second.s) ends.second = c;
  }
  return ends;
}

// The shape with corners added where its rim crosses the folds between facets.
std::vector<Corner> with_folds(const std::vector<Corner>& shape, const std::vector<double>& folds) {
  std::vector<Corner> out;
  for (std::size_t k = 0; k < shape.size(); ++k) {
    const Corner p = shape[k];
    const Corner q = shape[(k + 1) % shape.size()];
    out.push_back(p);
    std::vector<Corner> crossed;
    for (const double u : folds) {
      if (u <= std::min(p.u, q.u) || u >= std::max(p.u, q.u)) continue;
      crossed.push_back({p.s + (q.s - p.s) * (u - p.u) / (q.u - p.u), u});
    }
    if (p.u > q.u) std::reverse(crossed.begin(), crossed.end());
    out.insert(out.end(), crossed.begin(), crossed.end());
  }
  return out;
}

// The sheet of one panel before it is fastened to its neighbours.
struct Sheet {
  OverhangPanel panel;
  std::vector<std::vector<Vec3>> facets;  // from base to tip, corner by corner
};

// Folds up to where the shape ends, its farthest corner last.
std::vector<double> folds_within(const OverhangProfile& profile, const std::vector<Corner>& shape) {
  double farthest = 0.0;
  for (const Corner& c : shape) farthest = std::max(farthest, c.u);
  std::vector<double> folds;
  for (const double u : profile.share) {
    if (u < farthest - 1e-12) folds.push_back(u);
  }
  folds.push_back(farthest);
  return folds;
}

Sheet sheet_of(const EdgeFrame& f, const Panel& p, int index) {
  const double s0 = dot(f.along, p.a - f.origin);
  const double s1 = dot(f.along, p.b - f.origin);
  const std::vector<Corner> plain = share_of(f, s0, s1);
  const std::vector<double> folds = folds_within(f.profile, plain);
  const std::vector<Corner> shape = with_folds(plain, folds);
  const PanelPlane plane{f, s0, s1, p.top_a, p.top_b};
  Sheet sheet;
  sheet.panel.section = p.section;
  sheet.panel.panel = index;
  for (std::size_t k = 0; k < folds.size(); ++k) {
    const auto ends = extent(shape, folds[k]);
    sheet.panel.side_a.push_back(plane.at(ends.first));
    sheet.panel.side_b.push_back(plane.at(ends.second));
    if (k == 0) continue;
    std::vector<Vec3> facet;
    for (const Corner& c : shape) {
      if (c.u >= folds[k - 1] && c.u <= folds[k]) facet.push_back(plane.at(c));
    }
    sheet.facets.push_back(std::move(facet));
  }
  sheet.panel.base_a = sheet.panel.side_a.front();
  sheet.panel.base_b = sheet.panel.side_b.front();
  sheet.panel.tip_a = sheet.panel.side_a.back();
  sheet.panel.tip_b = sheet.panel.side_b.back();
  return sheet;
}

void move_corner(Sheet& sheet, Vec3 from, double z) {
  for (std::vector<Vec3>& facet : sheet.facets) {
    for (Vec3& v : facet) {
      if (v == from) v.z = z;
    }
  }
}

bool of_one_design(const Overhang& o, const Overhang& r) {
  return o.length == r.length && o.angle == r.angle && o.profile == r.profile;
}

// Two sides over the same plan points, of one design: both take the mean heights.
void fasten(const Model& model, Sheet& before, Sheet& after) {
  const Panel& p = model.panels[static_cast<std::size_t>(before.panel.panel)];
  const Panel& q = model.panels[static_cast<std::size_t>(after.panel.panel)];
  if (!of_one_design(*section_of_panel(model, p).overhang, *section_of_panel(model, q).overhang) ||
      std::abs(p.top_b - q.top_a) > 1e-9) {
    return;
  }
  std::vector<Vec3>& side_b = before.panel.side_b;
  std::vector<Vec3>& side_a = after.panel.side_a;
  const std::size_t last = std::min(side_a.size(), side_b.size());
  for (std::size_t k = 1; k < last; ++k) {
    if (geom::distance(xy(side_b[k]), xy(side_a[k])) > 1e-6) continue;
    const double z = 0.5 * (side_b[k].z + side_a[k].z);
    move_corner(before, side_b[k], z);
    move_corner(after, side_a[k], z);
    side_b[k].z = side_a[k].z = z;
  }
  before.panel.tip_b = side_b.back();
  after.panel.tip_a = side_a.back();
}

void append_sheet(geom::Mesh& mesh, const Sheet& sheet) {
  for (const std::vector<Vec3>& facet : sheet.facets) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), facet.begin(), facet.end());
    for (std::uint32_t k = 1; k + 1 < facet.size(); ++k) {
      mesh.triangles.push_back({first, first + k, first + k + 1});
    }
  }
}

std::vector<Sheet> all_sheets(const Model& model) {
  std::vector<Sheet> sheets;
  for (std::size_t k = 0; k < model.panels.size(); ++k) {
    const Panel& p = model.panels[k];
    const auto& overhang = section_of_panel(model, p).overhang;
    if (!overhang) continue;
    const auto edge = static_cast<std::size_t>(model_edge(model, p.edge));
    sheets.push_back(sheet_of(frame_of(model, edge, *overhang), p, static_cast<int>(k)));
  }
  for (std::size_t k = 0; k < sheets.size(); ++k) {
    Sheet& next = sheets[(k + 1) % sheets.size()];
    const std::size_t wanted =
        (static_cast<std::size_t>(sheets[k].panel.panel) + 1) % model.panels.size();
    if (static_cast<std::size_t>(next.panel.panel) == wanted) fasten(model, sheets[k], next);
  }
  return sheets;
}

}  // namespace

void build_overhangs(Model& model) {
  const std::vector<Sheet> sheets = all_sheets(model);
  std::vector<int> part_of(model.site.boundary.sections.size(), -1);
  for (std::size_t s = 0; s < part_of.size(); ++s) {
    const Section& section = model.site.boundary.sections[s];
    if (!section.overhang) continue;
    Part part;
    part.name = section.name;
    part.kind = PartKind::overhang;
    part.source = static_cast<int>(s);
    const SheetKind kind = section.overhang->kind.value_or(section.kind);
    set_sheet(part, kind, section.aperture, section.wire,
              kind == section.kind ? section.surface : "");
    for (const Sheet& sheet : sheets) {
      if (sheet.panel.section == static_cast<int>(s)) append_sheet(part.mesh, sheet);
    }
    part.mesh = geom::weld(part.mesh, 0.0);
    part_of[s] = static_cast<int>(model.parts.size());
    model.parts.push_back(std::move(part));
  }
  for (const Sheet& sheet : sheets) {
    model.overhangs.push_back(sheet.panel);
    model.overhangs.back().part = part_of[static_cast<std::size_t>(sheet.panel.section)];
  }
}

}  // namespace hummock
