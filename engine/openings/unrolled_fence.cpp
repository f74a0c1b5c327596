#include "engine/openings/unrolled_fence.h"

#include <algorithm>
#include <cmath>

#include "engine/openings/holes.h"
#include "geometry/plan/plan_boxes.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::openings {

struct RoofTriangles {
  std::vector<std::array<geom::Vec3, 3>> triangles;
  geom::PlanBoxes boxes;
};

namespace {

constexpr double kReach = 0.6;    // m from a meeting to a circle's middle at most
constexpr double kEarth = 5.0;    // m below the ground: as good as solid for any ball
constexpr double kInside = 1e-3;  // m: the roof is looked for so far inside the fence line

using geom::SolidPiece;

void add_quad(std::vector<SolidPiece>& out, Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  out.push_back({a, b, c});
  out.push_back({a, c, d});
}

struct Frame {  // of one sheet: x metres from a
  Vec2 a, along;
  double length = 0.0;
  Vec2 at(double x) const { return a + along * x; }
};

void add_ground(const geom::Heightfield& ground, const Frame& f, std::vector<SolidPiece>& out) {
  const std::vector<double> ts = geom::ground_breaks(ground, f.a, f.at(f.length));
  for (std::size_t k = 1; k < ts.size(); ++k) {
    const double p = ts[k - 1] * f.length, q = ts[k] * f.length;
    const double zp = geom::height_at(ground, f.at(p)), zq = geom::height_at(ground, f.at(q));
    add_quad(out, {p, zp}, {q, zq}, {q, zq - kEarth}, {p, zp - kEarth});
  }
}

// A footing cut by the sheet's plane, filled; up to the sheet's foot where the sheet is set in it.
void add_footing(const BarrierLine& line, std::vector<SolidPiece>& out) {
  const SheetBand footing(line.footing), sheet(line.sheet);
  const std::vector<double>& xs = footing.breaks();
  for (std::size_t k = 1; k < xs.size(); ++k) {
    const double middle = 0.5 * (xs[k - 1] + xs[k]);
    auto p = footing.at(xs[k - 1], middle), q = footing.at(xs[k], middle);
    if (!p || !q) continue;
    const auto sp = sheet.at(xs[k - 1], middle), sq = sheet.at(xs[k], middle);
    if (line.set_in_footing && sp && sq) {
      p->high = std::max(p->high, sp->low);
      q->high = std::max(q->high, sq->low);
    }
    add_quad(out, {xs[k - 1], p->low}, {xs[k], q->low}, {xs[k], q->high}, {xs[k - 1], p->high});
  }
}

// The line's pieces, given in its own measure, in the frame's.
void add_line(const BarrierLine& line, const Frame& f, std::vector<SolidPiece>& out) {
  std::vector<SolidPiece> own;
  own.insert(own.end(), line.sheet.begin(), line.sheet.end());
  if (line.leaf_part < 0) own.insert(own.end(), line.skirt.begin(), line.skirt.end());
  add_footing(line, own);
  const Vec2 along = geom::unit(line.b - line.a);
  for (SolidPiece& piece : own) {
    for (Vec2& p : piece) p = {dot(f.along, line.a + along * p.x - f.a), p.y};
    out.push_back(piece);
  }
}

bool in_plane(const BarrierLine& line, const Frame& f) {
  constexpr double kSameLine = 1e-6;  // m
  return std::abs(cross(f.along, line.a - f.a)) < kSameLine &&
         std::abs(cross(f.along, line.b - f.a)) < kSameLine;
}

RoofTriangles roof_triangles(const Model& model) {
  RoofTriangles roof;
  std::vector<geom::Box2> boxes;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::roof) continue;
    for (const auto& [a, b, c] : part.mesh.triangles) {
      const auto& v = part.mesh.vertices;
      roof.triangles.push_back({v[a], v[b], v[c]});
      geom::Box2& box = boxes.emplace_back();
      for (const geom::Vec3& p : roof.triangles.back()) box.add(xy(p));
    }
  }
  roof.boxes = geom::PlanBoxes(std::move(boxes));
  return roof;
}

// The sheet of the piece over a gate: the triangles of its part that lie in the frame.
void add_over_gate(const Panel& panel, const Frame& f, std::vector<SolidPiece>& out) {
  add_quad(out, {0.0, panel.foot_a}, {f.length, panel.foot_b}, {f.length, panel.top_b},
           {0.0, panel.top_a});
}

// Where the frame's plane, a little inside the yard, cuts the roof.
std::vector<SolidPiece> roof_cut(const RoofTriangles& roof, const Frame& f) {
  std::vector<SolidPiece> out;
  const Vec2 base = f.a + left_of(f.along) * kInside;
  geom::Box2 about;
  for (const Vec2 end : {base, base + f.along * f.length})
    for (const double by : {-kInside, kInside}) about.add(end + Vec2{by, by});
  for (const std::size_t id : roof.boxes.meeting(about)) {
    const std::array<geom::Vec3, 3>& corner = roof.triangles[id];
    std::array<Vec2, 2> ends;
    std::size_t n = 0;
    for (std::size_t k = 0; k < 3 && n < 2; ++k) {
      const geom::Vec3 p = corner[k], q = corner[(k + 1) % 3];
      const double dp = cross(f.along, xy(p) - base), dq = cross(f.along, xy(q) - base);
      if ((dp >= 0.0) == (dq >= 0.0)) continue;
      const geom::Vec3 at = lerp(p, q, dp / (dp - dq));
      ends[n++] = {dot(f.along, xy(at) - base), at.z};
    }
    if (n == 2 && std::max(ends[0].x, ends[1].x) > 0.0 &&
        std::min(ends[0].x, ends[1].x) < f.length) {
      out.push_back({ends[0], ends[1], ends[1]});
    }
  }
  return out;
}

// The fence's top, or the roof where that is above it.
std::vector<Vec2> ceiling_of(const Panel& panel, const Frame& f,
                             const std::vector<SolidPiece>& roof) {
  std::vector<Vec2> line;
  const SheetBand band(roof);
  std::vector<double> xs{0.0, f.length};
  for (const double x : band.breaks()) {
    if (0.0 < x && x < f.length) xs.push_back(x);
  }
  std::sort(xs.begin(), xs.end());
  for (std::size_t k = 0; k < xs.size(); ++k) {
    const double top = panel.top_a + (panel.top_b - panel.top_a) * xs[k] / f.length;
    for (const std::size_t j : {k, k + 1}) {  // on either side of a break
      if (j == 0 || j >= xs.size()) continue;
      const auto over = band.at(xs[k], 0.5 * (xs[j - 1] + xs[j]));
      line.push_back({xs[k], over ? std::max(top, over->low) : top});
    }
  }
  return line;
}

std::string section_name(const Model& model, const Panel& panel) {
  return model.site.boundary.sections[static_cast<std::size_t>(panel.section)].name;
}

}  // namespace

// What the sheets are made from, looked up by panel and gateway.
struct UnrolledFence::Made {
  std::vector<BarrierLine> lines;
  std::vector<std::vector<std::size_t>> of_panel, of_gateway;
  RoofTriangles roof;

  explicit Made(const Model& model)
      : lines(barrier_lines(model)),
        of_panel(model.panels.size()),
        of_gateway(model.gateways.size()),
        roof(roof_triangles(model)) {
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const BarrierLine& line = lines[k];
      if (line.panel >= 0)
        of_panel[static_cast<std::size_t>(line.panel)].push_back(k);
      else if (line.gateway >= 0)
        of_gateway[static_cast<std::size_t>(line.gateway)].push_back(k);
    }
  }
  // Of the panel, and of its gate, in their order.
  std::vector<std::size_t> lines_of(std::size_t panel, int gate) const {
    std::vector<std::size_t> mine = of_panel[panel];
    if (gate < 0) return mine;
    const auto& leaf = of_gateway[static_cast<std::size_t>(gate)];
    mine.insert(mine.end(), leaf.begin(), leaf.end());
    std::sort(mine.begin(), mine.end());
    return mine;
  }
};

void UnrolledFence::add_sheet(const Model& model, std::size_t k, const Made& made) {
  const Panel& panel = model.panels[k];
  const Panel& next = model.panels[(k + 1) % model.panels.size()];
  const Frame f{panel.a, geom::unit(panel.b - panel.a), geom::distance(panel.a, panel.b)};
  Sheet sheet{f.a, f.along, round_, f.length, geom::distance(panel.b, next.a), {}, {}};
  add_ground(model.ground, f, sheet.solid);
  for (const std::size_t line : made.lines_of(k, panel.gate))
    if (in_plane(made.lines[line], f)) add_line(made.lines[line], f, sheet.solid);
  if (panel.gate >= 0) add_over_gate(panel, f, sheet.solid);
  const std::vector<SolidPiece> roof = roof_cut(made.roof, f);
  sheet.solid.insert(sheet.solid.end(), roof.begin(), roof.end());
  sheet.ceiling = ceiling_of(panel, f, roof);
  round_ += sheet.length + sheet.gap_after;
  longest_ = std::max(longest_, sheet.length);
  sheets_.push_back(std::move(sheet));
}

// Sheets lie one after another: only those that begin in the stretch, or a longest sheet before.
std::pair<std::size_t, std::size_t> UnrolledFence::about(double from, double to) const {
  const auto begins = [](const Sheet& s, double x) { return s.from < x; };
  const auto first =
      std::lower_bound(sheets_.begin(), sheets_.end(), from - longest_ - kInside, begins);
  const auto last = std::lower_bound(first, sheets_.end(), to + kInside, begins);
  return {static_cast<std::size_t>(first - sheets_.begin()),
          static_cast<std::size_t>(last - sheets_.begin())};
}

// Two meetings a drain, and its grille as a solid: what the grille passes is told with the drain.
void UnrolledFence::add_drains(const Model& model, std::size_t k) {
  const Panel& panel = model.panels[k];
  Sheet& sheet = sheets_[k];
  const geom::Polygon& outline = model.site.boundary.outline;
  for (const Drain& drain : model.site.boundary.drains) {
    const auto e = static_cast<std::size_t>(drain.edge);
    if (drain.edge != panel.edge || panel.gate >= 0 || e >= outline.size()) continue;
    const Vec2 on = geom::unit(outline[(e + 1) % outline.size()] - outline[e]);
    const auto x_at = [&](double d) { return dot(sheet.along, outline[e] + on * d - sheet.a); };
    const auto [p, q] = std::minmax({x_at(drain.from), x_at(drain.from + drain.width)});
    if (q <= 0.0 || p >= sheet.length) continue;
    const Vec2 middle = outline[e] + on * (drain.from + 0.5 * drain.width);
    const double sill = geom::height_at(model.ground, middle) + drain.sill;
    if (drain.aperture > 0.0 && drain.aperture < std::min(drain.width, drain.height)) {
      const double head = sill + drain.height;
      add_quad(sheet.solid, {p, sill}, {q, sill}, {q, head}, {p, head});
    }
    for (const double x : {p, q}) {
      meetings_.push_back({sheet.from + x, 0.0, section_name(model, panel), {drain.name}});
    }
  }
}

// One meeting at each sheet's beginning: between it and the one before.
void UnrolledFence::add_joints(const Model& model) {
  const std::size_t n = model.panels.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Panel& panel = model.panels[k];
    const Panel& before = model.panels[(k + n - 1) % n];
    double joint = sheets_[(k + n - 1) % n].gap_after;
    if (panel.gate < 0) joint += half_joint(model, panel);
    if (before.gate < 0) joint += half_joint(model, before);
    meetings_.push_back({sheets_[k].from, joint, section_name(model, panel), {}});
  }
}

UnrolledFence::UnrolledFence(const Model& model) {
  const Made made(model);
  for (std::size_t k = 0; k < model.panels.size(); ++k) add_sheet(model, k, made);
  for (std::size_t k = 0; k < model.panels.size(); ++k) add_drains(model, k);
  const std::size_t drains = meetings_.size();
  add_joints(model);
  for (Meeting& meeting : meetings_) name_things(model, drains, meeting);
}

// What lies within reach of a meeting, by name; the first `drains` meetings are of drains.
void UnrolledFence::name_things(const Model& model, std::size_t drains, Meeting& meeting) const {
  const auto near = [&](double x) {
    const double d = std::abs(x - meeting.x);
    return std::min(d, round_ - d) < kReach;
  };
  for (const double turn : {-round_, 0.0, round_}) {
    const auto [first, last] = about(meeting.x + turn - kReach, meeting.x + turn + kReach);
    for (std::size_t k = first; k < last; ++k) {
      const double from = sheets_[k].from, to = from + sheets_[k].length;
      if (!near(from) && !near(to) && !(from < meeting.x && meeting.x < to)) continue;
      const Panel& panel = model.panels[k];
      meeting.things.insert(section_name(model, panel));
      if (panel.gate < 0) continue;
      const Gateway& g = model.gateways[static_cast<std::size_t>(panel.gate)];
      meeting.things.insert(model.site.boundary.gates[static_cast<std::size_t>(g.gate)].name);
    }
  }
  for (std::size_t d = 0; d < drains; ++d) {
    if (near(meetings_[d].x))
      meeting.things.insert(meetings_[d].things.begin(), meetings_[d].things.end());
  }
}

geom::Circle UnrolledFence::largest_circle(const Meeting& meeting, double above,
                                           double precision) const {
  std::vector<SolidPiece> solid;
  geom::FreeCircleSearch search;
  search.above = above;
  search.precision = precision;
  std::vector<std::pair<double, const Sheet*>> near;
  for (const double turn : {-round_, 0.0, round_}) {
    const auto [first, last] =
        about(meeting.x - turn - 2.0 * kReach, meeting.x - turn + 2.0 * kReach);
    for (std::size_t k = first; k < last; ++k) {
      const Sheet& sheet = sheets_[k];
      const double from = sheet.from + turn;
      if (from - meeting.x < 2.0 * kReach && meeting.x - from - sheet.length < 2.0 * kReach) {
        near.push_back({from, &sheet});
      }
    }
  }
  double low = 1e300, high = -1e300;
  for (const auto& [from, sheet] : near) {
    for (SolidPiece piece : sheet->solid) {
      for (Vec2& p : piece) p.x += from;
      solid.push_back(piece);
    }
    for (const Vec2& p : sheet->ceiling) {
      search.ceiling.push_back({p.x + from, p.y});
      high = std::max(high, p.y);
    }
  }
  for (const SolidPiece& piece : solid) {
    for (const Vec2& p : piece) low = std::min(low, p.y);
  }
  search.window = {{meeting.x - kReach, low + kEarth - 1.0}, {meeting.x + kReach, high}};
  return geom::largest_free_circle(solid, search);
}

geom::Vec3 UnrolledFence::place(Vec2 on_plane) const {
  double x = std::fmod(on_plane.x + round_, round_);
  const auto after = std::upper_bound(sheets_.begin(), sheets_.end(), x,
                                      [](double v, const Sheet& s) { return v < s.from; });
  const Sheet& sheet = after == sheets_.begin() ? sheets_.front() : *(after - 1);
  return at_height(sheet.a + sheet.along * std::min(x - sheet.from, sheet.length), on_plane.y);
}

}  // namespace hummock::openings
