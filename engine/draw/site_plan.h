// Plans: the site from above, to a round scale, with or without a map layer under it.
#pragma once

#include <string>
#include <vector>

#include "engine/draw/canvas.h"
#include "engine/model/model.h"
#include "geometry/plan/contours.h"
#include "geometry/plan/grid.h"

namespace hummock::draw {

// Where metres of the model land on the sheet. The scale is one of 1 : 10, 20, 25, 50 × powers of
// ten.
struct PlanFrame {
  Vec2 centre;           // m, model point at the middle of the frame
  Vec2 middle;           // mm, that point on the sheet
  double scale = 100.0;  // 1 : scale
  Vec2 sheet(Vec2 p) const {
    const double mm_per_m = 1000.0 / scale;
    return {middle.x + (p.x - centre.x) * mm_per_m, middle.y - (p.y - centre.y) * mm_per_m};
  }
  double mm(double metres) const { return metres * 1000.0 / scale; }
};

// The least of 10, 20, 25, 50 × powers of ten that is not below `least` (1 : least).
double round_scale(double least);
// The largest round scale at which `area` (m) fits into the rectangle (mm).
PlanFrame fit(const geom::Box2& area, Vec2 top_left, Vec2 extent);

struct PlanLook {
  bool contours = true;
  bool names = true;
  bool furniture = true;
  bool grid_lines = false;
  bool sections = false;  // names of the fence's sections and gates along the boundary
};

// Outline and sections, gates, furniture, surfaces, plantings, water, dens, burrows, stations,
// houses, viewings, names.
void draw_site(Canvas& canvas, const Model& model, const PlanFrame& frame,
               const PlanLook& look = {});
void draw_north_arrow(Canvas& canvas, const Model& model, Vec2 at, double size);
// A bar of a round length no longer than `room` mm, with its length and the scale in words.
void draw_scale_bar(Canvas& canvas, const PlanFrame& frame, Vec2 at, double room);

struct LayerLook {
  bool two_sided = false;        // zero in the middle of the scale
  double low = 0.0, high = 0.0;  // value range; low == high = from the data
  int contour_count = 6;         // about; 0 = none
  bool reversed = false;         // dark for the greatest: shade
};
// A raster in its colours, worked out once for however many sheets it is drawn on.
struct ColouredLayer {
  geom::Grid grid;
  std::vector<std::uint32_t> pixels;  // 0xAARRGGBB, the northernmost row first
  struct Line {
    geom::Contour contour;
    bool on_dark = false;
  };
  std::vector<Line> lines;
};
ColouredLayer coloured(const geom::Raster& raster, const LayerLook& look);
// As coloured cells, each centred on its node, clipped to the outline.
void draw_layer(Canvas& canvas, const Model& model, const ColouredLayer& layer,
                const PlanFrame& frame);
// A legend with units and contour values for a layer drawn with the same look.
void draw_legend(Canvas& canvas, const geom::Raster& raster, const LayerLook& look, Vec2 top_left,
                 Vec2 extent, const std::string& title, const std::string& unit);

// The outline with what stands just outside it (viewings, vestibules), m.
geom::Box2 plan_area(const Model& model);

// A whole sheet: the layer with contours, site, legend, north arrow and scale.
Figure layer_figure(const Model& model, const geom::Raster& raster, const std::string& name,
                    const std::string& title, const std::string& unit, const LayerLook& look = {});
// A whole sheet: the site with ground contours.
Figure site_figure(const Model& model);

}  // namespace hummock::draw
