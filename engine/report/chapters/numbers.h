// Numbers and keys in words, the same way all through a report.
#pragma once

#include <optional>
#include <string>

#include "engine/model/model.h"
#include "engine/report/document.h"

namespace hummock::report {

// Three decimals below 1, two below 10, one below 1000, none above; no trailing zeros lost, so a
// column lines up by magnitude. "–" for nothing.
std::string number(double value);
std::string number(const std::optional<double>& value);
Cell text(const std::string& words, Mark mark = Mark::none);
Cell cell(double value);
Cell cell(const std::optional<double>& value);

// "(3.20, 1.75)", in the site's own coordinates.
std::string place(const Model& model, Vec2 at);
std::string place(const Model& model, Vec3 at);

// "space.plan_area_m2" → "area in plan" and "m²", by the catalogue of figures.
struct KeyWords {
  std::string words;
  std::string unit;  // empty = a plain number
};
KeyWords key_words(const std::string& key);

// "1.15 m over a bar, a trial": how far a jump figure can be leaned on.
std::string figure_words(const Sourced<double>& figure);

}  // namespace hummock::report
