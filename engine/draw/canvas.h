// The one drawing layer: lines, areas, words and pictures on a sheet in millimetres, over Cairo.
//
// Words are laid out by Pango: any script, in its own direction, from whatever fonts there are.
// A figure is drawn once by a function and comes out as PNG, SVG or a page of a PDF. Origin top
// left, x right, y down, millimetres. The same drawing gives the same bytes (dates in PDFs are
// fixed).
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "engine/draw/colour_scale.h"
#include "geometry/vec.h"

typedef struct _cairo cairo_t;            // NOLINT(bugprone-reserved-identifier)
typedef struct _PangoLayout PangoLayout;  // NOLINT(bugprone-reserved-identifier)

namespace hummock::draw {

using geom::Vec2;

inline constexpr Colour kInk{0.13, 0.13, 0.15, 1.0};
inline constexpr Colour kFaint{0.55, 0.55, 0.57, 1.0};
inline constexpr Colour kPaper{1.0, 1.0, 1.0, 1.0};

struct Pen {
  Colour colour = kInk;
  double width = 0.25;              // mm
  std::vector<double> dashes = {};  // mm on, off, …; empty = solid
};

enum class Anchor { start, middle, end };
struct Words {
  double size = 2.6;  // mm, height of capitals is about 0.7 of it
  Colour colour = kInk;
  Anchor anchor = Anchor::start;
  bool bold = false;
  double turn = 0.0;  // rad clockwise on the sheet
  bool halo = false;  // white rim, to stay readable over a map
  bool ltr = false;   // a sentence of ours, read from the left even if a name in it is not
};

// A name set apart (U+2068 … U+2069), so that its direction does not spread to what stands beside
// it; plain ASCII is left as it is.
std::string isolated(const std::string& name);

struct Figure;

class Canvas {
 public:
  Canvas(cairo_t* cairo, Vec2 size) : cairo_(cairo), size_(size) {}
  Vec2 size() const { return size_; }  // mm

  void line(const std::vector<Vec2>& points, const Pen& pen, bool closed = false);
  void fill(const std::vector<Vec2>& points, const Colour& colour);
  // What closed lines wind about, all at once.
  void fill(const std::vector<std::vector<Vec2>>& lines, const Colour& colour);
  // Slanted lines `gap` mm apart inside the area, for black-and-white reading.
  void hatch(const std::vector<Vec2>& points, const Pen& pen, double gap, double turn);
  void circle(Vec2 centre, double radius, const Pen& pen);
  void disc(Vec2 centre, double radius, const Colour& colour);
  void arrow(Vec2 from, Vec2 to, const Pen& pen);
  void words(Vec2 at, const std::string& text, const Words& style = {});
  double width_of(const std::string& text, const Words& style = {}) const;  // mm
  // Words broken into lines no wider than `width`, the first line's top at top_left; returns how
  // far down they reach, mm. A line that reads from right to left begins at the
  // right, unless the style says otherwise.
  double paragraph(Vec2 top_left, double width, const std::string& text, const Words& style = {});
  double paragraph_height(double width, const std::string& text, const Words& style = {}) const;
  // A picture of w × h pixels (premultiplied 0xAARRGGBB, row 0 at the top) stretched over the
  // rectangle. `smooth` false keeps the pixels square.
  void picture(Vec2 top_left, Vec2 extent, int w, int h, const std::vector<std::uint32_t>& argb,
               bool smooth = false);
  void clip_to(const std::vector<Vec2>& points);  // until the matching `unclip`
  void unclip();
  // A figure at its own size, its top left corner at `at`.
  void inset(Vec2 at, const Figure& figure);

 private:
  void path(const std::vector<Vec2>& points, bool closed);
  void set(const Pen& pen);
  PangoLayout* layout(const std::string& text, const Words& style) const;
  cairo_t* cairo_;
  Vec2 size_;
};

struct Figure {
  std::string name;         // file name without ending
  std::string caption;      // what it shows; model, units and settings
  Vec2 size{180.0, 130.0};  // mm
  std::function<void(Canvas&)> draw;
};

// Runs `draw` on a sheet that is thrown away: for measuring words before there is a page.
void on_scratch(const std::function<void(Canvas&)>& draw);

void save_png(const std::filesystem::path& path, const Figure& figure, double dots_per_mm = 8.0);
void save_svg(const std::filesystem::path& path, const Figure& figure);
std::string svg_text(const Figure& figure);
std::string png_bytes(const Figure& figure, double dots_per_mm = 8.0);
// One page a figure, each of the figure's own size.
void save_pdf(const std::filesystem::path& path, const std::vector<Figure>& pages,
              const std::string& title);

}  // namespace hummock::draw
