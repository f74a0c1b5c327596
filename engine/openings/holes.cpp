#include "engine/openings/holes.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/house_ways.h"
#include "engine/openings/barrier_lines.h"
#include "engine/species/doubt.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::openings {

namespace {

void add_hole(const Model& model, std::vector<Opening>& list, const char* what,
              const std::string& thing, Vec3 at, double ball) {
  if (ball < kLeastListed) return;
  Opening o;
  o.what = what;
  o.thing = thing;
  o.at = at;
  o.ball_m = o.rigid_ball_m = ball;
  o.passes = ball >= model.site.species.least_opening.value;
  list.push_back(o);
}

Vec3 middle_of(const Panel& panel) {
  const double low = 0.5 * (panel.foot_a + panel.foot_b);
  const double high = 0.5 * (panel.top_a + panel.top_b);
  return at_height(lerp(panel.a, panel.b, 0.5), 0.5 * (low + high));
}

Vec3 middle_of(const Part& part) {
  return geom::bounds(part.mesh).centre();
}

double width_or_grille(double width, double height, double aperture) {
  const double least = std::min(width, height);
  return aperture > 0.0 ? std::min(least, aperture) : least;
}

// The middle of a hole `from`..`from + width` along an edge.
Vec3 hole_middle(const Model& model, const Polygon& outline, int edge, double from, double width,
                 double sill, double height) {
  const auto e = static_cast<std::size_t>(edge) % outline.size();
  const Vec2 a = outline[e];
  const Vec2 along = geom::unit(outline[(e + 1) % outline.size()] - a);
  const Vec2 p = a + along * (from + 0.5 * width);
  return at_height(p, geom::height_at(model.ground, p) + sill + 0.5 * height);
}

const Section& section_of(const Model& model, const Panel& panel) {
  return model.site.boundary.sections[static_cast<std::size_t>(panel.section)];
}

// Half a joint gap is left at either end of a panel.
double joint_between(const Model& model, const Panel& before, const Panel& after) {
  return half_joint(model, before) + half_joint(model, after) + geom::distance(before.b, after.a);
}

// The panels beside a gate end half their joint gap short of its posts: the wider of the two sides.
double joint_beside(const Model& model, int gateway) {
  const std::size_t n = model.panels.size();
  double widest = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    if (model.panels[k].gate != gateway) continue;
    for (const std::size_t other : {(k + n - 1) % n, (k + 1) % n}) {
      if (model.panels[other].gate >= 0) continue;
      widest = std::max(widest, half_joint(model, model.panels[other]));
    }
  }
  return widest;
}

// Of the section's own face and its bands, as they are built; of a gate in it too.
double widest_aperture(const Model& model, int section) {
  double widest = 0.0;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::panel || part.source != section) continue;
    widest = std::max(widest, part.aperture);
  }
  for (const Gateway& g : model.gateways) {
    if (g.section != section || g.leaf_part < 0) continue;
    widest = std::max(widest, model.parts[static_cast<std::size_t>(g.leaf_part)].aperture);
  }
  return widest;
}

std::string space_in_words(const Model& model, barrier::Space space) {
  switch (space.kind) {
    case barrier::SpaceKind::yard:
      return "the yard";
    case barrier::SpaceKind::house:
      return model.site.houses[static_cast<std::size_t>(space.index)].name;
    case barrier::SpaceKind::vestibule:
    case barrier::SpaceKind::outside:
      break;
  }
  return {};
}

// Pieces of one vent side by side that lead into the same are one, though what parts them is
// another thing of the outside; one that the fence shuts is no more shut where it goes on beside
// it.
std::vector<barrier::HouseWay> vent_pieces(const Model& model) {
  std::vector<barrier::HouseWay> pieces;
  for (const barrier::HouseWay& way : barrier::house_ways(model)) {
    if (way.vent < 0) continue;
    const bool goes_on =
        !pieces.empty() && pieces.back().house == way.house && pieces.back().vent == way.vent &&
        pieces.back().to == way.from &&
        space_in_words(model, pieces.back().beyond) == space_in_words(model, way.beyond);
    if (!goes_on) {
      pieces.push_back(way);
      continue;
    }
    barrier::HouseWay& piece = pieces.back();
    piece.to = way.to;
    piece.fenced = piece.fenced && way.fenced;
    if (way.whole) piece.height = way.height;
    piece.whole = piece.whole || way.whole;
    piece.sill = std::min(piece.sill, way.sill);
    piece.top = std::max(piece.top, way.top);
  }
  return pieces;
}

// Why a vent is no way out; empty when it is one.
std::string no_way_out(const Model& model, const barrier::HouseWay& piece) {
  const std::string into = space_in_words(model, piece.beyond);
  if (!into.empty()) return "leads into " + into + ", not out";
  return piece.fenced ? "the fence stands before it" : "";
}

void add_vent(const Model& model, const barrier::HouseWay& piece, std::vector<Opening>& list) {
  const House& house = model.site.houses[static_cast<std::size_t>(piece.house)];
  const WallOpening& vent = house.vents[static_cast<std::size_t>(piece.vent)];
  const double width = piece.to - piece.from;
  Vec3 at = hole_middle(model, house.outline, vent.edge, piece.from, width, vent.sill, vent.height);
  if (!piece.whole) at.z = 0.5 * (piece.sill + piece.top);
  const std::size_t before = list.size();
  add_hole(model, list, "vent", house.name + ", " + vent.name, at,
           width_or_grille(width, piece.height, piece.aperture));
  const std::string why = no_way_out(model, piece);
  if (list.size() == before || why.empty()) return;
  list.back().passes = false;
  list.back().note = why;
}

// A part of a drain that leads into a house that stands against the fence, or past all of them.
struct DrainPiece {
  double from = 0.0, to = 0.0;  // m along its edge
  int house = -1;               // of site.houses; -1 = it leads out
};

// Straight behind the fence, as near as the head still passes between fence and wall; not where the
// hole rises above the house.
int house_behind(const Model& model, Vec2 p, Vec2 out, double top) {
  const Sourced<double>& head = model.site.species.least_opening;
  const double least = careful_end(head, kSmallerHead).value_or(head.value);
  const Vec2 behind = p + out * std::min(barrier::kBeyondWall, 0.5 * least);
  const barrier::Space space = barrier::space_at(model, behind);
  if (space.kind != barrier::SpaceKind::house) return -1;
  const bool covers = std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    return part.kind == PartKind::house && part.source == space.index &&
           geom::bounds(part.mesh).hi.z >= top;
  });
  return covers ? space.index : -1;
}

std::vector<DrainPiece> pieces_of(const Model& model, const Drain& d) {
  const Polygon& outline = model.site.boundary.outline;
  const auto e = static_cast<std::size_t>(d.edge) % outline.size();
  const Vec2 along = geom::unit(outline[geom::following(outline, e)] - outline[e]);
  const Vec2 out = left_of(along) * (geom::signed_area(outline) < 0.0 ? 1.0 : -1.0);
  const double top =
      hole_middle(model, outline, d.edge, d.from, d.width, d.sill, d.height).z + 0.5 * d.height;
  const int n = model.site.houses.empty()
                    ? 1
                    : std::max(1, static_cast<int>(std::ceil(d.width / barrier::kWayStep)));
  std::vector<DrainPiece> pieces;
  for (int k = 0; k < n; ++k) {
    const double from = d.from + d.width * k / n, to = d.from + d.width * (k + 1) / n;
    const int house = house_behind(model, outline[e] + along * (0.5 * (from + to)), out, top);
    const bool goes_on = !pieces.empty() && pieces.back().house == house;
    if (goes_on)
      pieces.back().to = to;
    else
      pieces.push_back({from, to, house});
  }
  return pieces;
}

void add_drain(const Model& model, const Drain& d, const DrainPiece& piece, double width,
               std::vector<Opening>& list) {
  const Vec3 at =
      hole_middle(model, model.site.boundary.outline, d.edge, piece.from, width, d.sill, d.height);
  const std::size_t before = list.size();
  add_hole(model, list, "drain", d.name, at, width_or_grille(width, d.height, d.aperture));
  if (list.size() == before || piece.house < 0) return;
  const House& house = model.site.houses[static_cast<std::size_t>(piece.house)];
  list.back().passes = false;
  list.back().note = "leads into " + house.name + ", not out";
}

}  // namespace

double half_joint(const Model& model, const Panel& panel) {
  return 0.5 * section_of(model, panel).joint_gap;
}

void add_meshes(const Model& model, std::vector<Opening>& list) {
  for (std::size_t s = 0; s < model.site.boundary.sections.size(); ++s) {
    const Section& section = model.site.boundary.sections[s];
    const double aperture = widest_aperture(model, static_cast<int>(s));
    if (aperture <= 0.0) continue;
    const auto panel = std::find_if(model.panels.begin(), model.panels.end(), [&](const Panel& p) {
      return p.section == static_cast<int>(s);
    });
    if (panel == model.panels.end()) continue;
    add_hole(model, list, "mesh aperture", section.name, middle_of(*panel), aperture);
  }
  if (!model.site.roof || model.site.roof->kind != SheetKind::mesh) return;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::roof) continue;
    add_hole(model, list, "mesh aperture", part.name, middle_of(part), model.site.roof->aperture);
  }
}

void add_gate_sides(const Model& model, std::vector<Opening>& list) {
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Gateway& g = model.gateways[k];
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    const double tall = g.leaf_top - g.leaf_foot;
    const Vec3 at = at_height(g.a, 0.5 * (g.leaf_foot + g.leaf_top));
    const double gap = gate.side_gap + joint_beside(model, static_cast<int>(k));
    add_hole(model, list, "beside gate", gate.name, at, std::min(gap, tall));
    if (g.second_leaf_part < 0) continue;
    const Part& leaf = model.parts[static_cast<std::size_t>(g.second_leaf_part)];
    if (!leaf.mesh.empty()) {
      add_hole(model, list, "beside gate", leaf.name, middle_of(leaf),
               std::min(gate.side_gap, tall));
    }
  }
}

// One row for each section's own joints, and one for each place where two sections meet.
void add_joints(const Model& model, std::vector<Opening>& list) {
  std::vector<char> told(model.site.boundary.sections.size(), 0);
  for (std::size_t k = 0; k < model.panels.size(); ++k) {
    const Panel& before = model.panels[k];
    const Panel& after = model.panels[(k + 1) % model.panels.size()];
    const double ball = joint_between(model, before, after);
    const bool same = before.section == after.section;
    const bool plain = same && geom::distance(before.b, after.a) < 1e-9;
    if (plain && told[static_cast<std::size_t>(before.section)] != 0) continue;
    if (plain) told[static_cast<std::size_t>(before.section)] = 1;
    const std::string name =
        same ? section_of(model, before).name
             : section_of(model, before).name + " and " + section_of(model, after).name;
    const Vec3 at = at_height(before.b, 0.5 * (before.foot_b + before.top_b));
    add_hole(model, list, "joint", name, at, ball);
  }
}

void add_drains(const Model& model, std::vector<Opening>& list) {
  for (const Drain& d : model.site.boundary.drains) {
    const std::vector<DrainPiece> pieces = pieces_of(model, d);
    for (const DrainPiece& piece : pieces)
      add_drain(model, d, piece, pieces.size() == 1 ? d.width : piece.to - piece.from, list);
  }
}

void add_vents(const Model& model, std::vector<Opening>& list) {
  for (const barrier::HouseWay& piece : vent_pieces(model)) add_vent(model, piece, list);
}

}  // namespace hummock::openings
