#include "engine/model/build/bays.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hummock {
namespace {

constexpr double kTouch = 1e-6;        // m
constexpr double kMostPanels = 20000;  // of one edge

[[noreturn]] void refuse_gate(const Gate& gate, double length) {
  Where where = gate.where;
  where.key += ".from";
  throw InputError(where,
                   fmt::format("a gate from {:g} to {:g} m", gate.from, gate.from + gate.width),
                   fmt::format("within its edge, 0 to {:.6g} m, and clear of other gates", length));
}

// The gates of one model edge, in order along it.
std::vector<Bay> gate_bays(const Model& model, int edge, int section) {
  const Boundary& boundary = model.site.boundary;
  const double length = edge_length(model.outline, edge);
  std::vector<Bay> bays;
  for (std::size_t g = 0; g < boundary.gates.size(); ++g) {
    const Gate& gate = boundary.gates[g];
    if (model_edge(model, gate.edge) != edge) continue;
    const double from = along_model_edge(model, edge, gate.from, gate.width);
    if (gate.width <= 0.0 || from < -kTouch || from + gate.width > length + kTouch) {
      refuse_gate(gate, length);
    }
    bays.push_back({edge, section, std::max(from, 0.0), std::min(from + gate.width, length),
                    static_cast<int>(g)});
  }
  std::sort(bays.begin(), bays.end(), [](const Bay& a, const Bay& b) { return a.from < b.from; });
  for (std::size_t k = 1; k < bays.size(); ++k) {
    if (bays[k].from < bays[k - 1].to - kTouch) {
      refuse_gate(boundary.gates[static_cast<std::size_t>(bays[k].gate)], length);
    }
  }
  return bays;
}

void divide_stretch(const Model& model, int edge, int section, double from, double to,
                    std::vector<Bay>& bays) {
  if (to - from <= kTouch) return;
  const Section& s = model.site.boundary.sections[static_cast<std::size_t>(section)];
  const double wanted = std::ceil((to - from) / s.panel - 1e-9);
  if (!(s.panel > 0.0) || wanted > kMostPanels) {
    Where where = s.where;
    where.key += ".panel";
    throw InputError(where, fmt::format("{:g}", s.panel),
                     fmt::format("more than 0 m, and at most {} panels to an edge", kMostPanels));
  }
  const int count = std::max(1, static_cast<int>(wanted));
  const auto post = [&](int k) { return k == count ? to : from + (to - from) * k / count; };
  for (int k = 0; k < count; ++k) bays.push_back({edge, section, post(k), post(k + 1), -1});
}

}  // namespace

namespace {

void check_drains(const Model& model) {
  for (const Drain& drain : model.site.boundary.drains) {
    const int edge = model_edge(model, drain.edge);
    const double length = edge < 0 ? 0.0 : edge_length(model.outline, edge);
    if (drain.from >= -kTouch && drain.from + drain.width <= length + kTouch) continue;
    Where where = drain.where;
    where.key += ".from";
    throw InputError(
        where, fmt::format("a drain from {:g} to {:g} m", drain.from, drain.from + drain.width),
        fmt::format("within its edge, 0 to {:.6g} m", length));
  }
}

}  // namespace

std::vector<Bay> divide_boundary(const Model& model) {
  check_drains(model);
  std::vector<Bay> bays;
  for (int edge = 0; edge < static_cast<int>(model.outline.size()); ++edge) {
    const int section =
        section_of(model.site.boundary, model.edge_of[static_cast<std::size_t>(edge)]);
    if (section < 0) continue;
    double done = 0.0;
    for (const Bay& gate : gate_bays(model, edge, section)) {
      divide_stretch(model, edge, section, done, gate.from, bays);
      bays.push_back(gate);
      done = gate.to;
    }
    divide_stretch(model, edge, section, done, edge_length(model.outline, edge), bays);
  }
  return bays;
}

int section_of(const Boundary& boundary, int file_edge) {
  for (std::size_t s = 0; s < boundary.sections.size(); ++s) {
    for (int e : boundary.sections[s].edges) {
      if (e == file_edge) return static_cast<int>(s);
    }
  }
  return -1;
}

int model_edge(const Model& model, int file_edge) {
  const auto it = std::find(model.edge_of.begin(), model.edge_of.end(), file_edge);
  return it == model.edge_of.end() ? -1 : static_cast<int>(it - model.edge_of.begin());
}

double along_model_edge(const Model& model, int edge, double from, double width) {
  const bool turned_round = geom::signed_area(model.site.boundary.outline) < 0.0;
  return turned_round ? edge_length(model.outline, edge) - from - width : from;
}

Vec2 on_edge(const geom::Polygon& outline, int edge, double along) {
  const auto k = static_cast<std::size_t>(edge);
  const Vec2 a = outline[k];
  const Vec2 b = outline[(k + 1) % outline.size()];
  const double l = geom::distance(a, b);
  if (along <= 0.0) return a;
  if (along >= l) return b;
  return geom::lerp(a, b, along / l);
}

double edge_length(const geom::Polygon& outline, int edge) {
  const auto k = static_cast<std::size_t>(edge);
  return geom::distance(outline[k], outline[(k + 1) % outline.size()]);
}

}  // namespace hummock
