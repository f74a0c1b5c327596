// A document as sheets of A4: the same words and figures as the page, figures at their true size,
// so that a plan's scale can be measured on paper.
#pragma once

#include <vector>

#include "engine/draw/canvas.h"
#include "engine/report/document.h"

namespace hummock::report {

// Each a figure of 210 × 297 mm. The document must outlive them.
std::vector<draw::Figure> pdf_pages(const Document& document);

}  // namespace hummock::report
