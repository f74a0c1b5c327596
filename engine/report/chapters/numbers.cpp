#include "engine/report/chapters/numbers.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/check/catalogue.h"

namespace hummock::report {

std::string number(double value) {
  if (!std::isfinite(value)) return "–";
  const double size = std::abs(value);
  const int decimals = size < 0.9995 ? 3 : (size < 9.995 ? 2 : (size < 999.5 ? 1 : 0));
  std::string text = fmt::format("{:.{}f}", value, decimals);
  // No minus before nothing.
  if (text.find_first_not_of("-0.") == std::string::npos) text = value == 0.0 ? "0" : "0.000";
  if (text[0] == '-') text = "−" + text.substr(1);
  return text;
}

std::string number(const std::optional<double>& value) {
  return value ? number(*value) : "–";
}

Cell text(const std::string& words, Mark mark) {
  return {words, std::nullopt, mark};
}

Cell cell(double value) {
  Cell made;
  made.text = number(value);
  if (std::isfinite(value)) made.number = value;
  return made;
}

Cell cell(const std::optional<double>& value) {
  return value ? cell(*value) : Cell{"–", std::nullopt, Mark::none};
}

std::string place(const Model& model, Vec2 at) {
  const Vec2 p = model.to_site(at);
  return fmt::format("({:.2f}, {:.2f})", p.x, p.y);
}

std::string place(const Model& model, Vec3 at) {
  return place(model, geom::xy(at));
}

KeyWords key_words(const std::string& key) {
  const FigureInfo* figure = figure_info(key);
  return figure == nullptr ? KeyWords{key, ""} : KeyWords{figure->title, figure->unit};
}

std::string figure_words(const Sourced<double>& figure) {
  const std::string article =
      figure.evidence == "anecdote" || figure.evidence == "assumed" ? "an" : "a";
  const std::string evidence = figure.evidence == "biomechanics" ? "from biomechanics"
                               : figure.evidence == "assumed"    ? "assumed"
                               : figure.evidence.empty()         ? "evidence not stated"
                                                                 : article + " " + figure.evidence;
  const std::string measured = figure.measures.empty() ? "" : " (" + figure.measures + ")";
  return fmt::format("{:.2f} m{}, {}", figure.value, measured, evidence);
}

}  // namespace hummock::report
