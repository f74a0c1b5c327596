#include "engine/quantities/kinds.h"

#include <algorithm>
#include <map>
#include <set>

namespace hummock::quantities {
namespace {

using Words = std::vector<std::string>;

const char* word_of(SheetKind kind) {
  return kind == SheetKind::mesh ? "mesh" : kind == SheetKind::glass ? "glass" : "solid";
}

// Words, each with the first section it is found on.
using Found = std::map<std::string, std::string>;

void add_sheets(const Section& section, Found& kinds) {
  const auto add = [&](SheetKind kind) { kinds.emplace(word_of(kind), section.name); };
  add(section.kind);
  for (const Band& band : section.bands) add(band.kind);
  if (section.cap > 0.0) add(SheetKind::solid);
  if (section.overhang) add(section.overhang->kind.value_or(section.kind));
}

Figure figure_of(const Found& found) {
  Figure figure;
  figure.words.emplace();
  for (const auto& [word, section] : found) {
    figure.words->push_back(word);
    if (!figure.where.empty()) figure.where += ", ";
    figure.where += word;
    figure.where += " of " + section;
  }
  return figure;
}

bool a_place_is_open(const Model& model, const Polygon& roof) {
  const Polygon& yard = model.site.boundary.outline;
  for (std::size_t i = 0; i < yard.size(); ++i) {
    const Vec2 a = yard[i], b = yard[(i + 1) % yard.size()];
    for (const Vec2 p : {a, (a + b) * 0.5}) {
      constexpr double kOnItsEdge = 1e-6;  // m; numeric
      if (!geom::contains(roof, p) && geom::distance_to_edges(roof, p) > kOnItsEdge) return true;
    }
  }
  return false;
}

// One that holds all corners of the yard then holds the whole of it.
bool is_convex(const Polygon& outline) {
  bool left = false, right = false;
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = outline[i], b = outline[(i + 1) % n], c = outline[(i + 2) % n];
    const double turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    left = left || turn > 0.0;
    right = right || turn < 0.0;
  }
  return !(left && right);  // of a simple outline
}

Figure roof_figure(const Model& model) {
  Figure figure;
  const auto& roof = model.site.roof;
  if (!roof) {
    figure.words = Words{"open"};
  } else if (!roof->outline) {
    figure.words = Words{word_of(roof->kind)};
  } else if (a_place_is_open(model, *roof->outline)) {
    figure.words = Words{word_of(roof->kind), "open"};
  } else if (is_convex(*roof->outline)) {
    figure.words = Words{word_of(roof->kind)};
  } else {
    figure.outcome = Outcome::not_run;
    figure.why = "whether the roof's own outline leaves any of the yard open is not worked out";
  }
  return figure;
}

Figure soil_figure(const Model& model) {
  Figure figure;
  switch (model.site.ground.soil) {
    case Soil::unknown:
      figure.outcome = Outcome::not_run;
      figure.why = "the site does not say what soil it is";
      break;
    case Soil::sand:
      figure.words = Words{"sand"};
      break;
    case Soil::loam:
      figure.words = Words{"loam"};
      break;
    case Soil::clay:
      figure.words = Words{"clay"};
      break;
  }
  return figure;
}

FigureInfo words_row(const char* key, const char* title, const char* group, const char* meaning,
                     Words words) {
  FigureInfo row;
  row.key = std::string("quantities.") + key;
  row.title = title;
  row.decimals = 0;
  row.meaning = meaning;
  row.group = group;
  row.words = std::move(words);
  return row;
}

}  // namespace

void add_kinds(const Model& model, Figures& figures) {
  Found kinds;
  for (const Section& section : model.site.boundary.sections)
    if (!section.edges.empty()) add_sheets(section, kinds);
  figures["quantities.fence_kinds"] = figure_of(kinds);
  figures["quantities.roof_kinds"] = roof_figure(model);
  figures["quantities.soil"] = soil_figure(model);
}

FigureRows kind_rows() {
  return {
      words_row("fence_kinds", "kinds of the fence's sheets", "boundary",
                "Of its sections with their bands, caps and overhangs; gates are not among them.",
                {"mesh", "solid", "glass"}),
      words_row("roof_kinds", "kinds of the roof", "boundary",
                "\"open\" is among them where there is no roof, or where it leaves some of the "
                "yard open.",
                {"mesh", "solid", "open"}),
      words_row("soil", "soil", "ground", "As the site's ground says.", {"sand", "loam", "clay"})};
}

}  // namespace hummock::quantities
