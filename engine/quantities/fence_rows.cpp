// Fence, gates and roof.
#include <fmt/format.h>

#include <cmath>

#include "engine/model/build/bands.h"
#include "engine/quantities/schedule_steps.h"

namespace hummock::quantities {
namespace {

double area_of(const Model& model, PartKind kind, int source) {
  double area = 0.0;
  for (const Part& p : model.parts)
    if (p.kind == kind && p.source == source) area += geom::surface_area(p.mesh);
  return area;
}

// Of a panel's own face (-1) or one of its bands.
double face_area(const Model& model, int section, int band) {
  double area = 0.0;
  for (const Part& p : model.parts) {
    if (p.kind == PartKind::panel && p.source == section && p.band == band)
      area += geom::surface_area(p.mesh);
  }
  return area;
}

double volume_of(const Model& model, PartKind kind, int source) {
  double volume = 0.0;
  for (const Part& p : model.parts)
    if (p.kind == kind && p.source == source) volume += geom::signed_volume(p.mesh);
  return volume;
}

std::string kind_words(SheetKind kind, double aperture) {
  if (kind == SheetKind::glass) return "glass";
  if (kind == SheetKind::solid) return "solid";
  return fmt::format("{:.0f} mm mesh", aperture * 1e3);
}

struct PanelSums {
  double length = 0.0;
  int panels = 0, posts = 0;
};

// A post stands where a panel begins, and where one ends with no neighbour.
PanelSums sums_of(const Model& model, int section) {
  PanelSums s;
  const std::size_t n = model.panels.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Panel& p = model.panels[k];
    if (p.section != section) continue;
    ++s.posts;
    if (geom::distance(p.b, model.panels[(k + 1) % n].a) >= 1e-9) ++s.posts;
    if (p.gate >= 0) continue;
    ++s.panels;
    s.length += geom::distance(p.a, p.b);
  }
  return s;
}

void add_sheet_area(const Section& s, double area, int panels, std::vector<Row>& rows) {
  switch (s.kind) {
    case SheetKind::mesh:
      rows.push_back(
          {fmt::format("mesh, {:.0f} mm clear, {:.1f} mm wire", s.aperture * 1e3, s.wire * 1e3),
           s.name, area, "m²", "of the fence's face", "mesh_m2"});
      break;
    case SheetKind::glass:
      rows.push_back({"glass", s.name, area, "m²", fmt::format("{} panes", panels), "glass_m2"});
      break;
    case SheetKind::solid:
      rows.push_back({"solid wall, one face", s.name, area, "m²", "", "wall_m2"});
      break;
  }
}

void add_bands(const Model& model, const Section& s, int index, std::vector<Row>& rows) {
  const std::vector<Band> bands = bands_of(s);
  for (std::size_t k = 0; k < bands.size(); ++k) {
    const Band& band = bands[k];
    rows.push_back({fmt::format("band of {}, {:.2f} to {:.2f} m up",
                                kind_words(band.kind, band.aperture), band.from, band.to),
                    s.name, face_area(model, index, static_cast<int>(k)), "m²", "one face",
                    "band_m2"});
  }
}

void add_overhang(const Model& model, const Section& s, int index, std::vector<Row>& rows) {
  if (!s.overhang) return;
  double length = 0.0;
  for (const OverhangPanel& o : model.overhangs)
    if (o.section == index) length += geom::distance(geom::xy(o.base_a), geom::xy(o.base_b));
  const bool curved = s.overhang->profile == Profile::curved;
  const std::string item = fmt::format("{}overhang, {:.2f} m at {:.0f}°", curved ? "curved " : "",
                                       s.overhang->length, s.overhang->angle / geom::kDegree);
  rows.push_back({item, s.name, length, "m", "along the fence top", "overhang_m"});
  rows.push_back({item + ", sheet", s.name, area_of(model, PartKind::overhang, index), "m²",
                  kind_words(s.overhang->kind.value_or(s.kind), s.aperture), "overhang_m2"});
}

void add_below(const Model& model, const Section& s, int index, std::vector<Row>& rows) {
  if (s.buried > 0.0)
    rows.push_back({fmt::format("buried {}, {:.2f} m deep",
                                s.kind == SheetKind::mesh ? "mesh" : "sheet", s.buried),
                    s.name, area_of(model, PartKind::skirt, index), "m²", "upright", "buried_m2"});
  if (s.apron)
    rows.push_back(
        {fmt::format("apron, {:.2f} m wide, {:.2f} m deep", s.apron->length, s.apron->depth),
         s.name, area_of(model, PartKind::apron, index), "m²",
         s.apron->side == Side::inside ? "inside" : "outside", "apron_m2"});
  if (s.footing)
    rows.push_back({fmt::format("concrete footing, {:.2f} m deep, {:.2f} m wide", s.footing->depth,
                                s.footing->width),
                    s.name, volume_of(model, PartKind::footing, index), "m³", "", "footing_m3"});
}

void add_section(const Model& model, int index, std::vector<Row>& rows) {
  const Section& s = model.site.boundary.sections[static_cast<std::size_t>(index)];
  const PanelSums sums = sums_of(model, index);
  rows.push_back({fmt::format("{} fence, {:.2f} m high",
                              s.kind == SheetKind::mesh    ? "mesh"
                              : s.kind == SheetKind::glass ? "glass"
                                                           : "solid",
                              s.height),
                  s.name, sums.length, "m",
                  fmt::format("{} panels, {}", sums.panels,
                              s.fit == Fit::raked ? "following the ground" : "stepped"),
                  "fence_m"});
  rows.push_back({fmt::format("posts for {:.2f} m", s.height), s.name,
                  static_cast<double>(sums.posts), "no.", "", "post_count"});
  add_sheet_area(s, face_area(model, index, -1), sums.panels, rows);
  add_bands(model, s, index, rows);
  add_overhang(model, s, index, rows);
  add_below(model, s, index, rows);
}

void add_gates(const Model& model, std::vector<Row>& rows) {
  for (std::size_t k = 0; k < model.site.boundary.gates.size(); ++k) {
    const Gate& g = model.site.boundary.gates[k];
    const int leaves = g.vestibule && g.vestibule->second_gate ? 2 : 1;
    rows.push_back({fmt::format("gate leaf, {:.2f} by {:.2f} m", g.width, g.height), g.name,
                    static_cast<double>(leaves), "no.", leaves == 2 ? "inner and outer" : "single",
                    "gate_count"});
    if (!g.vestibule) continue;
    rows.push_back({fmt::format("vestibule, {:.2f} m deep", g.vestibule->depth), g.name,
                    area_of(model, PartKind::vestibule, static_cast<int>(k)), "m²",
                    g.vestibule->roofed ? "walls and roof" : "walls", "vestibule_m2"});
  }
  for (const Drain& d : model.site.boundary.drains)
    rows.push_back({fmt::format("drain, {:.0f} by {:.0f} mm", d.width * 1e3, d.height * 1e3),
                    d.name, 1.0, "no.",
                    d.aperture > 0.0 ? fmt::format("grille of {:.0f} mm", d.aperture * 1e3)
                                     : std::string("no grille"),
                    "drain_count"});
}

}  // namespace

void add_fence(const Model& model, std::vector<Row>& rows) {
  for (std::size_t s = 0; s < model.site.boundary.sections.size(); ++s)
    add_section(model, static_cast<int>(s), rows);
  add_gates(model, rows);
  if (model.site.roof)
    rows.push_back({"roof, " + kind_words(model.site.roof->kind, model.site.roof->aperture), "roof",
                    area_of(model, PartKind::roof, 0), "m²", "with its sag", "roof_m2"});
}

}  // namespace hummock::quantities
