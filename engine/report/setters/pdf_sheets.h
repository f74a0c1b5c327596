// Sheets of A4 that fill from the top, and the look of what is set on them.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/draw/canvas.h"
#include "engine/report/document.h"

namespace hummock::report {

using draw::Canvas;
using draw::Vec2;
using draw::Words;

inline constexpr Vec2 kPage{210.0, 297.0};  // mm
inline constexpr double kLeft = 15.0;       // mm; layout
inline constexpr double kWidth = 180.0;     // mm; layout
inline constexpr double kTop = 16.0;        // mm; layout
inline constexpr double kBottom = 282.0;    // mm; layout
inline constexpr double kGap = 3.0;         // mm; layout
inline constexpr draw::Colour kMuted{0.36, 0.38, 0.40, 1.0};
inline constexpr draw::Colour kRule{0.70, 0.70, 0.68, 1.0};
inline constexpr draw::Colour kTint{0.955, 0.95, 0.935, 1.0};

inline const Words kBody{.size = 3.0, .ltr = true};
inline const Words kSmall{.size = 2.4, .colour = kMuted, .ltr = true};
inline const Words kCellWords{.size = 2.35};
inline const Words kHead{.size = 2.35, .colour = kMuted, .bold = true};

using Draw = std::function<void(Canvas&)>;

// Fills sheets from the top; whatever is put is drawn later.
class Sheets {
 public:
  explicit Sheets(const Canvas& measure) : measure_(measure) { turn(); }

  const Canvas& measure() const { return measure_; }
  double y() const { return y_; }
  double room() const { return kBottom - y_; }
  void need(double height) {
    if (room() < height && y_ > kTop) turn();
  }
  void turn() {
    pages_.push_back({});
    y_ = kTop;
  }
  void skip(double height) { y_ += height; }
  void put(Draw draw) { pages_.back().push_back(std::move(draw)); }
  // Words across the given stretch of the sheet, the pen moved below them.
  void words(const std::string& text, const Words& style, double x = kLeft, double width = kWidth) {
    const double height = measure_.paragraph_height(width, text, style);
    need(height);
    put([=, at = Vec2{x, y_}](Canvas& c) { c.paragraph(at, width, text, style); });
    y_ += height;
  }
  std::vector<std::vector<Draw>> take() { return std::move(pages_); }

 private:
  const Canvas& measure_;
  std::vector<std::vector<Draw>> pages_;
  double y_ = kTop;
};

// "✓ met": a mark never stands by its colour alone.
std::string marked(Mark mark, const std::string& words);
// A line across the sheet, `width` mm thick.
void rule(Sheets& sheets, double width = 0.2);

double card_height(const draw::Canvas& measure, const Card& card);
void set_card(Sheets& sheets, const Card& card);
void set_bullets(Sheets& sheets, const std::vector<std::string>& lines, const draw::Words& style);
void set_block(Sheets& sheets, const Block& block);

}  // namespace hummock::report
