// A document's figures and sheets as bytes, each drawn once, on all cores.
//
// Drawings do not wait for one another: each has its own surface, and Pango's fonts are a thread's
// own. The bytes do not depend on how many threads there are.
#pragma once

#include <functional>
#include <map>
#include <string>

#include "engine/report/document.h"

namespace hummock::report {

struct Drawn {
  std::string svg, png;
  std::string page_png;  // for the page, where the SVG would be heavier than a picture of it
};
using Drawings = std::map<const draw::Figure*, Drawn>;  // by the document's own figures

// `done`: told of each as soon as it is drawn, by any thread; what it is told of stays where it is.
using FigureDrawn = std::function<void(const draw::Figure&, const Drawn&)>;
Drawings drawings_of(const Document& document, const FigureDrawn& done);

}  // namespace hummock::report
