#include "engine/check/catalogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/brief/asked.h"
#include "engine/brief/contradictions.h"
#include "engine/brief/judge_words.h"
#include "engine/brief/told.h"
#include "engine/check/analyses.h"
#include "engine/toml/table_cursor.h"

namespace hummock {
namespace {

const std::map<std::string, const FigureInfo*>& by_key() {
  static const std::map<std::string, const FigureInfo*> found = [] {
    std::map<std::string, const FigureInfo*> out;
    for (const FigureInfo* f : all_figures()) out[f->key] = f;
    return out;
  }();
  return found;
}

std::string keys_of(const std::string& analysis) {
  std::string keys;
  for (const FigureInfo* f : all_figures()) {
    if (analysis_of(f->key) == analysis) keys += (keys.empty() ? "" : ", ") + f->key;
  }
  return keys;
}

// Units as one can type them.
std::string typed(const std::string& unit) {
  static const std::map<std::string, std::string> same{
      {"m2", "m²"},     {"m^2", "m²"}, {"m3", "m³"},      {"m^3", "m³"},  {"deg", "°"},
      {"degrees", "°"}, {"C", "°C"},   {"share", "of 1"}, {"hours", "h"}, {"1", ""}};
  const auto found = same.find(unit);
  return found == same.end() ? unit : found->second;
}

void refuse_unknown(const Requirement& r) {
  if (figure_info(r.what) != nullptr) return;
  Where where = r.where;
  where.key += ".what";
  const auto near = nearest_figure(r.what);
  std::string allowed;
  if (near) {
    allowed = "\"" + *near + "\" (did you mean that?)";
  } else {
    const std::string keys = keys_of(analysis_of(r.what));
    allowed = keys.empty() ? "a figure that `hummock help figures` lists" : "one of " + keys;
  }
  throw InputError(where, "\"" + r.what + "\"", allowed);
}

Where key_of_row(const Requirement& r, const std::string& key) {
  Where where = r.where;
  where.key += "." + key;
  return where;
}

// A limit for words, or words for a number.
void refuse_other_kind(const Requirement& r) {
  const FigureInfo& figure = *figure_info(r.what);
  if (r.of_words() == !figure.words.empty()) return;
  throw InputError(
      key_of_row(r, "what"),
      r.of_words() ? "words for " + r.what + ", which is a number"
                   : "a limit for " + r.what + ", which is words",
      r.of_words() ? "a limit" : "words among or not among others (see hummock help site require)");
}

void refuse_other_words(const Requirement& r) {
  const FigureInfo& figure = *figure_info(r.what);
  for (const auto& [key, words] : word_forms(r)) {
    for (const std::string& word : *words) {
      if (std::find(figure.words.begin(), figure.words.end(), word) != figure.words.end()) continue;
      std::string allowed;
      for (const std::string& known : figure.words)
        allowed += (allowed.empty() ? "words of " : ", ") + known;
      throw InputError(key_of_row(r, key), "\"" + word + "\"", allowed);
    }
  }
}

void refuse_other_unit(const Requirement& r) {
  const FigureInfo& figure = *figure_info(r.what);
  if (r.unit.empty() || typed(r.unit) == figure.unit) return;
  Where where = r.where;
  where.key += ".unit";
  throw InputError(where, "\"" + r.unit + "\"",
                   figure.unit.empty() ? "no unit: " + r.what + " is a plain number"
                                       : "\"" + figure.unit + "\", the unit of " + r.what);
}

// Areas, volumes and counts of good things add up over animals; a share, an angle, an opening, a
// length, a figure already for each animal and a count of faults do not.
bool adds_over_animals(const FigureInfo& figure) {
  if (figure.unit == "m²" || figure.unit == "m³") return true;
  return figure.unit.empty() && figure.decimals == 0 && figure.better != Better::less;
}

void refuse_per_animal(const Requirement& r) {
  const FigureInfo& figure = *figure_info(r.what);
  if (r.per == Per::group || adds_over_animals(figure)) return;
  Where where = r.where;
  where.key += ".per";
  throw InputError(where,
                   r.per == Per::animal         ? "\"animal\""
                   : r.per == Per::extra_animal ? "\"extra animal\""
                                                : "\"with offspring\"",
                   "\"group\": " + r.what + " (" + figure.title + ") does not add up over animals");
}

}  // namespace

const std::vector<const FigureInfo*>& all_figures() {
  static const std::vector<const FigureInfo*> list = [] {
    std::vector<const FigureInfo*> out;
    for (const Analysis& a : analyses()) {
      for (const FigureInfo& f : a.figures()) out.push_back(&f);
    }
    return out;
  }();
  return list;
}

const FigureInfo* figure_info(const std::string& key) {
  const auto found = by_key().find(key);
  return found == by_key().end() ? nullptr : found->second;
}

std::string figure_title(const std::string& key) {
  const FigureInfo* figure = figure_info(key);
  return figure != nullptr ? figure->title : key;
}

std::string figure_words(const std::string& key, const std::optional<double>& value) {
  return value_in_words(figure_info(key), value);
}

std::optional<std::string> nearest_figure(const std::string& key) {
  std::vector<std::string> keys;
  for (const FigureInfo* f : all_figures()) keys.push_back(f->key);
  return nearest_word(key, keys);
}

void refuse_bad_requirements(const Site& site) {
  for (const Asked& asked : rows_asked(site)) {
    const Requirement& r = *asked.row;
    if (!r.ask.empty()) continue;
    refuse_unknown(r);
    refuse_other_kind(r);
    refuse_other_words(r);
    refuse_other_unit(r);
    refuse_per_animal(r);
  }
  refuse_contradictions(site);
}

}  // namespace hummock
