#include "engine/barrier/barrier.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/barrier/cuts.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::barrier {

namespace {

const Section& section_of(const Model& model, int section) {
  return model.site.boundary.sections[static_cast<std::size_t>(section)];
}

int part_of(const Model& model, PartKind kind, int source) {
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.kind == kind && part.source == source) return static_cast<int>(k);
  }
  return -1;
}

class Builder {
 public:
  explicit Builder(const Model& model) : model_(model), roof_(roof_outline(model)) {
    for (const House& house : model.site.houses) houses_.push_back(house.outline);
    for (std::size_t k = 0; k < model.gateways.size(); ++k) {
      const Polygon box = vestibule_outline(model, static_cast<int>(k));
      if (!box.empty()) vestibules_.push_back(box);
    }
    fence_lines_ = houses_;
    fence_lines_.insert(fence_lines_.end(), vestibules_.begin(), vestibules_.end());
    all_lines_ = fence_lines_;
    all_lines_.push_back(model.outline);
    edge_of_file_.resize(model.edge_of.size());
    for (std::size_t k = 0; k < model.edge_of.size(); ++k) {
      edge_of_file_[static_cast<std::size_t>(model.edge_of[k])] = static_cast<int>(k);
    }
  }

  Barrier build() {
    Barrier out;
    out.chains.push_back(boundary());
    for (std::size_t k = 0; k < model_.gateways.size(); ++k) {
      Chain chain = vestibule(static_cast<int>(k));
      if (!chain.stretches.empty()) out.chains.push_back(std::move(chain));
    }
    for (std::size_t k = 0; k < model_.site.houses.size(); ++k) out.chains.push_back(house(k));
    Chain edge = roof();
    if (!edge.stretches.empty()) out.chains.push_back(std::move(edge));
    return out;
  }

 private:
  // Adds the stretch, cut where other lines meet it, each piece with its two sides.
  void add(Chain& chain, const Stretch& whole, const std::vector<Polygon>& lines) const {
    if (geom::distance(whole.a, whole.b) < kSameLine) return;
    const std::vector<double> ts = cuts_by(whole.a, whole.b, lines);
    const auto mix = [](double p, double q, double t) { return t == 1.0 ? q : p + (q - p) * t; };
    for (std::size_t k = 1; k < ts.size(); ++k) {
      Stretch s = whole;
      s.a = ts[k - 1] == 0.0 ? whole.a : lerp(whole.a, whole.b, ts[k - 1]);
      s.b = ts[k] == 1.0 ? whole.b : lerp(whole.a, whole.b, ts[k]);
      s.foot_a = mix(whole.foot_a, whole.foot_b, ts[k - 1]);
      s.foot_b = mix(whole.foot_a, whole.foot_b, ts[k]);
      s.top_a = mix(whole.top_a, whole.top_b, ts[k - 1]);
      s.top_b = mix(whole.top_a, whole.top_b, ts[k]);
      const Vec2 middle = lerp(s.a, s.b, 0.5);
      const Vec2 aside = left_of(geom::unit(s.b - s.a)) * kAside;
      s.left = space_at(model_, middle + aside);
      s.right = space_at(model_, middle - aside);
      s.under_roof = !roof_.empty() && geom::contains(roof_, middle + aside);
      chain.stretches.push_back(s);
    }
  }

  Stretch of_part(StretchKind kind, int part) const {
    Stretch s;
    s.kind = kind;
    s.part = part;
    if (part < 0) return s;
    s.surface = model_.parts[static_cast<std::size_t>(part)].surface;
    return s;
  }

  Stretch panel(std::size_t k) const {
    const Panel& p = model_.panels[k];
    const Section& section = section_of(model_, p.section);
    Stretch s = of_part(StretchKind::panel, p.part);
    s.a = p.a;
    s.b = p.b;
    s.foot_a = p.foot_a;
    s.foot_b = p.foot_b;
    s.top_a = p.top_a;
    s.top_b = p.top_b;
    s.sheet = section.kind;
    s.panel = static_cast<int>(k);
    s.section = p.section;
    s.side = edge_of_panel(k);
    s.buried = {section.buried, section.apron, section.footing, false};
    if (p.gate >= 0) make_gate(s, p.gate);
    return s;
  }

  int edge_of_panel(std::size_t panel) const {
    return edge_of_file_[static_cast<std::size_t>(model_.panels[panel].edge)];
  }

  // The leaf, and the piece of fence over it.
  void make_gate(Stretch& s, int gateway) const {
    const Gateway& g = model_.gateways[static_cast<std::size_t>(gateway)];
    s.kind = StretchKind::gate;
    s.gateway = gateway;
    s.opens = true;
    s.part = g.leaf_part;
    s.foot_a = s.foot_b = g.leaf_foot;
    s.buried.skirt = 0.0;
    s.buried.apron.reset();
  }

  Chain boundary() const {
    Chain chain;
    std::vector<int> overhang(model_.panels.size(), -1);
    for (std::size_t k = 0; k < model_.overhangs.size(); ++k) {
      overhang[static_cast<std::size_t>(model_.overhangs[k].panel)] = static_cast<int>(k);
    }
    std::size_t k = 0;
    for (int edge = 0; edge < static_cast<int>(model_.outline.size()); ++edge) {
      const std::size_t first = k;
      for (; k < model_.panels.size() && edge_of_panel(k) == edge; ++k) {
        Stretch s = panel(k);
        s.overhang = overhang[k];
        add(chain, s, fence_lines_);
      }
      if (k == first) add(chain, bare_edge(edge), fence_lines_);
    }
    return chain;
  }

  // No section covers the edge.
  Stretch bare_edge(int edge) const {
    const auto e = static_cast<std::size_t>(edge);
    Stretch s;
    s.stands = false;
    s.side = edge;
    s.a = model_.outline[e];
    s.b = model_.outline[(e + 1) % model_.outline.size()];
    s.foot_a = s.top_a = geom::height_at(model_.ground, s.a);
    s.foot_b = s.top_b = geom::height_at(model_.ground, s.b);
    return s;
  }

  Stretch vestibule_wall(int gateway, Vec2 a, Vec2 b, double top) const {
    const Gateway& g = model_.gateways[static_cast<std::size_t>(gateway)];
    Stretch s = of_part(StretchKind::vestibule_wall, g.vestibule_part);
    s.a = a;
    s.b = b;
    s.foot_a = geom::height_at(model_.ground, a);
    s.foot_b = geom::height_at(model_.ground, b);
    s.top_a = s.top_b = top;
    s.sheet = section_of(model_, g.section).kind;
    s.gateway = gateway;
    s.section = g.section;
    return s;
  }

  Chain vestibule(int gateway) const {
    Chain chain{ChainKind::vestibule, gateway, {}};
    const Gateway& g = model_.gateways[static_cast<std::size_t>(gateway)];
    const Polygon box = vestibule_outline(model_, gateway);
    if (box.empty() || g.vestibule_part < 0) return chain;
    const double top =
        geom::bounds(model_.parts[static_cast<std::size_t>(g.vestibule_part)].mesh).hi.z;
    std::vector<Polygon> lines = houses_;
    lines.push_back(model_.outline);
    const auto side = [&](int k, double height) {
      Stretch s = vestibule_wall(gateway, box[static_cast<std::size_t>(k)],
                                 box[static_cast<std::size_t>((k + 1) % 4)], height);
      s.side = k;
      return s;
    };
    add(chain, side(0, top), lines);
    Stretch outer = side(1, top);
    outer.kind = StretchKind::second_gate;
    outer.opens = true;
    outer.stands = g.second_leaf_part >= 0;
    outer.part = g.second_leaf_part;
    add(chain, outer, lines);
    add(chain, side(2, top), lines);
    Stretch gate = side(3, g.leaf_top);
    gate.kind = StretchKind::gate;
    gate.opens = gate.told_elsewhere = true;
    gate.part = g.leaf_part;
    add(chain, gate, {});
    return chain;
  }

  Stretch house_wall(std::size_t house, Vec2 a, Vec2 b, double top) const {
    const House& h = model_.site.houses[house];
    Stretch s =
        of_part(StretchKind::house_wall, part_of(model_, PartKind::house, static_cast<int>(house)));
    s.a = a;
    s.b = b;
    s.foot_a = geom::height_at(model_.ground, a);
    s.foot_b = geom::height_at(model_.ground, b);
    s.top_a = s.top_b = top;
    s.house = static_cast<int>(house);
    s.buried.footing = h.footing;
    s.buried.solid_floor = h.solid_floor;
    return s;
  }

  Chain house(std::size_t index) const {
    const House& h = model_.site.houses[index];
    Chain chain{ChainKind::house, static_cast<int>(index), {}};
    const int part = part_of(model_, PartKind::house, static_cast<int>(index));
    const double top =
        part < 0 ? 0.0 : geom::bounds(model_.parts[static_cast<std::size_t>(part)].mesh).hi.z;
    const std::size_t n = h.outline.size();
    const bool turned = geom::signed_area(h.outline) < 0.0;
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t e = turned ? (2 * n - 2 - k) % n : k;  // the file's edge
      const Vec2 p = h.outline[e], q = h.outline[(e + 1) % n];
      std::vector<double> marks{0.0, 1.0};
      const double len = geom::distance(p, q);
      const bool door = h.door && static_cast<std::size_t>(h.door->edge) % n == e;
      if (door) {
        const double from = std::clamp(h.door->from / len, 0.0, 1.0);
        marks = {0.0, from, std::clamp((h.door->from + h.door->width) / len, from, 1.0), 1.0};
      }
      for (std::size_t i = 1; i < marks.size(); ++i) {
        const std::size_t j = turned ? marks.size() - i : i;
        const Vec2 a = lerp(p, q, marks[j - 1]), b = lerp(p, q, marks[j]);
        Stretch s = house_wall(index, turned ? b : a, turned ? a : b, top);
        s.side = static_cast<int>(k);
        if (door && j == 2) {
          s.kind = StretchKind::house_door;
          s.opens = true;
        }
        add(chain, s, all_lines_without(index));
      }
    }
    return chain;
  }

  std::vector<Polygon> all_lines_without(std::size_t house) const {
    std::vector<Polygon> lines = all_lines_;
    lines[house].clear();
    return lines;
  }

  // The roof's free edge: the sides of its triangles that no other shares, in order.
  Chain roof() const {
    Chain chain{ChainKind::roof, -1, {}};
    const int index = part_of(model_, PartKind::roof, 0);
    if (index < 0) return chain;
    const geom::Mesh& mesh = model_.parts[static_cast<std::size_t>(index)].mesh;
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> sides;
    for (const geom::Triangle& t : mesh.triangles) {
      for (std::size_t k = 0; k < 3; ++k) ++sides[{t[k], t[(k + 1) % 3]}];
    }
    std::map<std::uint32_t, std::uint32_t> next;
    for (const auto& [side, n] : sides) {
      if (sides.count({side.second, side.first}) == 0) next[side.first] = side.second;
    }
    if (next.empty()) return chain;
    const std::uint32_t first = next.begin()->first;
    for (std::uint32_t at = first;;) {
      const auto it = next.find(at);
      if (it == next.end()) break;
      chain.stretches.push_back(roof_edge(index, mesh.vertices[at], mesh.vertices[it->second]));
      at = it->second;
      next.erase(it);
      if (at == first) break;
    }
    return chain;
  }

  Stretch roof_edge(int part, const Vec3& a, const Vec3& b) const {
    Stretch s = of_part(StretchKind::roof_edge, part);
    s.a = xy(a);
    s.b = xy(b);
    s.foot_a = s.top_a = a.z;
    s.foot_b = s.top_b = b.z;
    s.sheet = model_.site.roof->kind;
    s.under_roof = true;
    const Vec2 middle = lerp(s.a, s.b, 0.5);
    const Vec2 aside = left_of(geom::unit(s.b - s.a)) * kAside;
    s.left = space_at(model_, middle + aside);
    s.right = space_at(model_, middle - aside);
    return s;
  }

  const Model& model_;
  Polygon roof_;
  std::vector<int> edge_of_file_;  // edge of model.outline for each of the file's
  std::vector<Polygon> houses_, vestibules_, fence_lines_, all_lines_;
};

}  // namespace

Barrier barrier_of(const Model& model) {
  return Builder(model).build();
}

}  // namespace hummock::barrier
