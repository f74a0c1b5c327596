#include "engine/report/chapters/parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/brief/judge_words.h"
#include "engine/check/analyses.h"
#include "engine/check/catalogue.h"
#include "engine/report/chapters/numbers.h"

namespace hummock::report {

const std::vector<Part>& parts() {
  static const std::vector<Part> list{
      {"room", "space", "room", add_room},
      {"ground", "relief", "relief of the ground", add_relief},
      {"ground", "earthworks", "cut and fill", add_earthworks},
      {"boundary", "leap", "leaps over the boundary", add_leap},
      {"boundary", "openings", "openings through the boundary", add_openings},
      {"entry", "entry", "gates", add_entry},
      {"below-ground", "dig", "digging", add_dig},
      {"below-ground", "burrows", "where burrows would lie", add_burrows},
      {"sun-and-shade", "shade", "sun and shade", add_shade},
      {"water", "water", "water", add_water},
      {"hiding", "sight", "hiding", add_hiding},
      {"guests", "sight", "what guests see", add_guests},
      {"indoors", "houses", "indoor quarters", add_houses},
      {"schedule", "quantities", "quantities", add_quantities}};
  return list;
}

Table figures_table(const std::string& file, std::vector<std::vector<Cell>> rows) {
  Table table;
  table.file = file;
  table.columns = {{"Figure", 2.4, false},
                   {"Value", 1.0, true},
                   {"Unit", 0.8, false},
                   {"What it is", 4.0, false}};
  table.rows = std::move(rows);
  return table;
}

namespace {

// Says that an analysis was not run, and why; true when it was not.
bool absent(Chapter& chapter, const Sources& sources, const std::string& analysis,
            const std::string& in_words) {
  const auto found = sources.results.not_run.find(analysis);
  if (found == sources.results.not_run.end()) return false;
  chapter.blocks.push_back(
      Text{fmt::format("Not checked: {} ({}).", in_words, to_string(found->second)), Tone::body});
  return true;
}

const Part* part_of(const std::string& chapter, const std::string& analysis) {
  for (const Part& part : parts())
    if (part.chapter == chapter && part.analysis == analysis) return &part;
  return nullptr;
}

bool has_a_part(const std::string& analysis) {
  return std::any_of(parts().begin(), parts().end(),
                     [&](const Part& part) { return part.analysis == analysis; });
}

Table declared_figures(const Analysis& a, const Sources& sources) {
  Figures figures;
  a.add_figures(sources.results, sources.model, figures);
  std::vector<std::vector<Cell>> rows;
  for (const FigureInfo& f : a.figures()) {
    const auto found = figures.find(f.key);
    if (found == figures.end()) continue;
    Cell value = cell(found->second.value);
    if (f.decimals == 0 && found->second.value)
      value.text = fmt::format("{:.0f}", *found->second.value);
    if (found->second.words) value.text = listed(*found->second.words);
    const std::string where = found->second.where.empty() ? "" : " (" + found->second.where + ")";
    rows.push_back(
        {text(f.title), value, text(f.unit == "of 1" ? "1" : f.unit), text(f.meaning + where)});
  }
  Table table = figures_table(a.name, std::move(rows));
  table.title = a.question;
  return table;
}

Table set(const PlainTable& plain) {
  Table table;
  table.file = plain.file;
  table.title = plain.title;
  table.note = plain.note;
  for (const std::string& title : plain.columns) table.columns.push_back({title, 1.0, false});
  for (const auto& row : plain.rows) {
    std::vector<Cell> cells;
    cells.reserve(row.size());
    for (const std::string& words : row) cells.push_back(text(words));
    table.rows.push_back(std::move(cells));
  }
  return table;
}

void add_declared(Chapter& chapter, const Analysis& a, const Sources& sources) {
  chapter.blocks.push_back(declared_figures(a, sources));
  for (const PlainTable& plain : a.chapter(sources.results, sources.model))
    chapter.blocks.push_back(set(plain));
}

}  // namespace

void add_parts(Chapter& chapter, const Sources& sources) {
  for (const Analysis& a : analyses()) {
    const Part* part = part_of(chapter.id, a.name);
    if (part == nullptr && (a.group != chapter.id || has_a_part(a.name))) continue;
    if (absent(chapter, sources, a.name, part != nullptr ? part->in_words : a.name)) continue;
    if (part != nullptr)
      part->add(chapter, sources);
    else
      add_declared(chapter, a, sources);
  }
}

}  // namespace hummock::report
