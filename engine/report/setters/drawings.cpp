#include "engine/report/setters/drawings.h"

#include <tbb/parallel_for_each.h>

namespace hummock::report {
namespace {

constexpr std::size_t kHeavy = 450'000;  // bytes
constexpr double kPageDots = 6.0;        // a millimetre

Drawn drawn(const draw::Figure& figure) {
  Drawn out{draw::svg_text(figure), draw::png_bytes(figure), {}};
  if (out.svg.size() >= kHeavy) out.page_png = draw::png_bytes(figure, kPageDots);
  return out;
}

}  // namespace

Drawings drawings_of(const Document& document, const FigureDrawn& done) {
  Drawings drawings;
  for (const draw::Figure* figure : figures_of(document)) drawings[figure];
  tbb::parallel_for_each(drawings, [&](auto& entry) {
    entry.second = drawn(*entry.first);
    done(*entry.first, entry.second);
  });
  return drawings;
}

}  // namespace hummock::report
