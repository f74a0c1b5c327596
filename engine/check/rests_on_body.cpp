#include "engine/check/rests_on_body.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"

namespace hummock {
namespace {

struct Row {
  const char* key;
  const char* words;  // before the used value
  std::function<Sourced<double>*(Species&)> figure;
  double unit = 1.0;
  const char* suffix = " m";
  const char* only = nullptr;  // the one analysis it bears; nothing = all
};

const std::vector<Row>& rows() {
  static const std::vector<Row> list{
      {.key = "stand_slope",
       .words = "it stands on slopes up to",
       .figure = [](Species& s) { return &s.stand_slope; },
       .unit = geom::kDegree,
       .suffix = "°"},
      {.key = "wade_depth",
       .words = "it wades as deep as",
       .figure = [](Species& s) { return &s.wade_depth; }},
      {.key = "eye_height",
       .words = "its eyes are up",
       .figure = [](Species& s) { return &s.eye_height; },
       .only = "sight"},
      {.key = "crouch", .words = "it fits where it is no lower than", .figure = [](Species& s) {
         return s.crouch ? &*s.crouch : nullptr;
       }}};
  return list;
}

std::string in_metres(const std::array<double, 3>& body) {
  return plain_figure(body[0]) + " × " + plain_figure(body[1]) + " × " + plain_figure(body[2]) +
         " m";
}

Assumption told(const Model& model, const char* key, const std::string& words,
                const std::string& used, const std::string& careful) {
  Assumption a;
  a.key = key;
  a.used_value = used;
  a.careful_value = careful;
  a.words = words + " " + used + " (used; careful " + careful + ")";
  take_confirmation(model.site.species, key, a);
  take_confirmation(model.site, key, a);
  return a;
}

// Sets the careful values in `species` and tells of each.
std::vector<Assumption> take_careful(const Model& model, const std::string& analysis,
                                     Species& species) {
  std::vector<Assumption> list;
  auto& body = species.body;
  if (body.careful && *body.careful != body.value) {
    list.push_back(
        told(model, "body", "its body measures", in_metres(body.value), in_metres(*body.careful)));
    body.value = *body.careful;
  }
  for (const Row& row : rows()) {
    if (row.only != nullptr && analysis != row.only) continue;
    Sourced<double>* figure = row.figure(species);
    if (figure == nullptr || !figure->careful || *figure->careful == figure->value) continue;
    const auto say = [&](double v) { return plain_figure(v / row.unit) + row.suffix; };
    list.push_back(told(model, row.key, row.words, say(figure->value), say(*figure->careful)));
    figure->value = *figure->careful;
  }
  return list;
}

// The brief of the analysis alone.
std::vector<BriefRow> brief_of(const Site& site, const std::string& analysis,
                               const Figures& figures) {
  std::vector<BriefRow> rows = judge(site, figures, {});
  std::erase_if(rows, [&](const BriefRow& r) { return r.what.rfind(analysis + ".", 0) != 0; });
  return rows;
}

bool is_met(const BriefRow& row) {
  return row.met == Met::met;
}

}  // namespace

RestsOn rests_on_body(const Model& model, const std::string& analysis, const Figures& found,
                      const std::function<Figures(const Model&)>& again) {
  RestsOn out;
  const std::vector<BriefRow> before = brief_of(model.site, analysis, found);
  if (std::none_of(before.begin(), before.end(), is_met)) return out;
  Species species = model.site.species;
  std::vector<Assumption> list = take_careful(model, analysis, species);
  if (list.empty()) return out;
  Model careful = model;
  careful.site.species = std::move(species);
  const std::vector<BriefRow> after = brief_of(model.site, analysis, again(careful));
  for (std::size_t k = 0; k < before.size(); ++k)
    if (is_met(before[k]) && !is_met(after[k])) out.figures.push_back(before[k].what);
  if (out.figures.empty()) return out;
  out.explored = list.size() == 1;
  if (!out.explored) out.why_not = "which of these turns it was not tried one by one";
  out.list = std::move(list);
  return out;
}

}  // namespace hummock
