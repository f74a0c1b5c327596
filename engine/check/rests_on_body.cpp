#include "engine/check/rests_on_body.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "engine/brief/given.h"
#include "engine/check/analyses.h"
#include "engine/findings/finding.h"
#include "engine/model/climbed.h"

namespace hummock {
namespace {

// Shares of a figure that nobody has shown and whose file gives no careful value.
constexpr double kLess = 0.75;   // common practice, no source
constexpr double kMore = 1.25;   // common practice, no source
constexpr double kWarmer = 5.0;  // °C, of the coldest air it bears; common practice, no source

struct Row {
  const char* key;
  const char* words;  // before the used value
  std::function<Sourced<double>*(Species&)> figure;
  double share;  // below 1: the less of it the less ground, or hiding, is the animal's
  double unit = 1.0;
  const char* suffix = " m";
  const char* only = nullptr;  // the one analysis it bears; nothing = all
};

const std::vector<Row>& rows() {
  static const std::vector<Row> list{
      {.key = "stand_slope",
       .words = "it stands on slopes up to",
       .figure = [](Species& s) { return &s.stand_slope; },
       .share = kLess,
       .unit = geom::kDegree,
       .suffix = "°"},
      {.key = "wade_depth",
       .words = "it wades as deep as",
       .figure = [](Species& s) { return &s.wade_depth; },
       .share = kLess},
      {.key = "eye_height",
       .words = "its eyes are up",
       .figure = [](Species& s) { return &s.eye_height; },
       .share = kMore,
       .only = "sight"},
      {.key = "crouch",
       .words = "it fits where it is no lower than",
       .figure = [](Species& s) { return s.crouch ? &*s.crouch : nullptr; },
       .share = kMore}};
  return list;
}

// A figure of the body at its careful end: what it is said to be, and how to take it.
struct Doubt {
  Assumption told;
  std::function<void(Species&)> take;
  std::function<void(Model&)> change = {};  // of the yard, not of the animal
};

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
  take_confirmations(model.site, a);
  return a;
}

// The file's careful value may be the end at which it leaves more easily: then as if it gave none.
std::optional<double> end_of(const Sourced<double>& figure, double share) {
  const bool more = share >= 1.0;
  const auto beyond = [&](double v) { return more ? v > figure.value : v < figure.value; };
  std::optional<double> end;
  if (figure.careful && beyond(*figure.careful))
    end = figure.careful;
  else if (unsure(figure))
    end = share * figure.value;
  end = or_record_beyond(figure, end, more);
  return end && beyond(*end) ? end : std::nullopt;
}

std::optional<Doubt> doubt_of(const Model& model, const Row& row) {
  Species species = model.site.species;
  const Sourced<double>* figure = row.figure(species);
  if (figure == nullptr) return std::nullopt;
  const std::optional<double> end = end_of(*figure, row.share);
  if (!end) return std::nullopt;
  const auto say = [&](double v) { return plain_figure(v / row.unit) + row.suffix; };
  return Doubt{told(model, row.key, row.words, say(figure->value), say(*end)),
               [&row, careful = *end](Species& s) { row.figure(s)->value = careful; }};
}

std::optional<Doubt> doubt_of_the_body(const Model& model) {
  const auto& body = model.site.species.body;
  std::optional<std::array<double, 3>> end = body.careful;
  if (!end && unsure(body)) {
    end = body.value;
    for (double& side : *end) side *= kMore;
  }
  if (!end || *end == body.value) return std::nullopt;
  return Doubt{told(model, "body", "its body measures", in_metres(body.value), in_metres(*end)),
               [careful = *end](Species& s) { s.body.value = careful; }};
}

// That it swims lets it come to ground across the water.
std::optional<Doubt> doubt_of_swimming(const Model& model) {
  const auto& swims = model.site.species.swims;
  if (!swims || !swims->value || !unsure(*swims)) return std::nullopt;
  Doubt doubt{told(model, "swims", "it swims:", "yes", "no"),
              [](Species& s) { s.swims->value = false; }};
  return doubt;
}

bool drains(const Model& model, const Part& part) {
  return part.kind == PartKind::water && part.source >= 0 &&
         model.site.waters[static_cast<std::size_t>(part.source)].drain;
}

// What it swims it comes out of again at another level once it is emptied, or not at all.
std::optional<Doubt> doubt_of_full_waters(const Model& model) {
  std::string names;
  int count = 0;
  for (const Part& part : model.parts)
    if (drains(model, part)) names += (count++ > 0 ? ", " : "") + quoted(part.name);
  const auto& swims = model.site.species.swims;
  if (count == 0 || !swims || !swims->value) return std::nullopt;
  Assumption a = told(model, "drained", "", "full", "empty");
  a.words = names + (count == 1 ? " is" : " are") + " full whenever the animal is in the yard";
  return Doubt{std::move(a), {}, [](Model& empty) {
                 for (Part& part : empty.parts)
                   if (drains(empty, part)) part.mesh = {};
               }};
}

// That it climbs lets it come to ground over a thing it does not leap.
std::optional<Doubt> doubt_of_climbing(const Model& model) {
  const Species& s = model.site.species;
  const bool bears = std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    if (part.kind != PartKind::object || part.mesh.empty() || !climbs(s, part.surface))
      return false;
    const geom::Box3 box = geom::bounds(part.mesh);
    return box.hi.z - box.lo.z > s.leap_height.value;
  });
  if (!bears || !unsure(s.climbs)) return std::nullopt;
  std::string what;
  for (const std::string& surface : s.climbs.value) what += (what.empty() ? "" : ", ") + surface;
  return Doubt{told(model, "climbs", "it climbs", what, "nothing"),
               [](Species& careful) { careful.climbs.value.clear(); }};
}

std::optional<Doubt> doubt_of_the_cold(const Model& model) {
  const auto& low = model.site.species.outdoor_low;
  if (!low) return std::nullopt;
  std::optional<double> end = low->careful;
  if (!end && unsure(*low)) end = low->value + kWarmer;
  end = or_record_beyond(*low, end, true);
  if (!end || *end <= low->value) return std::nullopt;
  const auto say = [](double t) { return plain_figure(t) + " °C"; };
  return Doubt{
      told(model, "outdoor_low", "it bears air outdoors down to", say(low->value), say(*end)),
      [careful = *end](Species& s) { s.outdoor_low->value = careful; }};
}

// Houses are judged by the cold alone.
std::vector<Doubt> doubts(const Model& model, const std::string& analysis) {
  std::vector<Doubt> list;
  const auto add = [&](std::optional<Doubt> doubt) {
    if (doubt) list.push_back(std::move(*doubt));
  };
  if (analysis == "houses") {
    add(doubt_of_the_cold(model));
    return list;
  }
  add(doubt_of_the_body(model));
  add(doubt_of_swimming(model));
  if (analysis != "water") add(doubt_of_full_waters(model));
  add(doubt_of_climbing(model));
  for (const Row& row : rows())
    if (row.only == nullptr || analysis == row.only) add(doubt_of(model, row));
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

using Again = std::function<Figures(const Model&)>;

// Keys of the rows that are met, and short once these doubts are taken the careful way.
std::vector<std::string> turned_by(const std::vector<const Doubt*>& taken, const Model& model,
                                   const std::string& analysis, const std::vector<BriefRow>& before,
                                   const Again& again) {
  Model careful = model;
  for (const Doubt* doubt : taken) {
    if (doubt->take) doubt->take(careful.site.species);
    if (doubt->change) doubt->change(careful);
  }
  const std::vector<BriefRow> after = brief_of(model.site, analysis, again(careful));
  std::vector<std::string> out;
  for (std::size_t k = 0; k < before.size(); ++k)
    if (is_met(before[k]) && !is_met(after[k])) out.push_back(before[k].what);
  return out;
}

using Doubts = std::vector<const Doubt*>;
using Turned = std::function<std::vector<std::string>(const Doubts&)>;

Doubts without(const Doubts& all, const Doubts& taken_off) {
  Doubts rest;
  for (const Doubt* doubt : all)
    if (std::find(taken_off.begin(), taken_off.end(), doubt) == taken_off.end())
      rest.push_back(doubt);
  return rest;
}

bool enough(const Doubts& confirmed, const Doubts& all, const Turned& turned) {
  const Doubts rest = without(all, confirmed);
  return rest.empty() || turned(rest).empty();
}

// None of which may be left out.
Doubts least_set(const Doubts& all, const Turned& turned) {
  Doubts kept = all;
  for (const Doubt* doubt : all) {
    const Doubts fewer = without(kept, {doubt});
    if (!fewer.empty() && enough(fewer, all, turned)) kept = fewer;
  }
  return kept;
}

Doubts first_if_enough(const Doubts& all, const Turned& turned) {
  const Doubts first{all.front()};
  return enough(first, all, turned) ? first : all;
}

}  // namespace

RestsOn rests_on_body(const Model& model, const std::string& analysis, const Figures& found,
                      const Again& again) {
  RestsOn out;
  const std::vector<BriefRow> before = brief_of(model.site, analysis, found);
  if (std::none_of(before.begin(), before.end(), is_met)) return out;
  const std::vector<Doubt> list = doubts(model, analysis);
  if (list.empty()) return out;
  Doubts all;
  for (const Doubt& doubt : list) all.push_back(&doubt);
  const Turned turned = [&](const Doubts& taken) {
    return turned_by(taken, model, analysis, before, again);
  };
  out.figures = turned(all);
  if (out.figures.empty()) return out;
  const bool quick = find_analysis(analysis)->cost != Cost::slow;
  const Doubts kept = quick ? least_set(all, turned) : first_if_enough(all, turned);
  for (const Doubt* doubt : kept) out.list.push_back(doubt->told);
  out.explored = quick || kept.size() == 1;
  if (!out.explored) out.why_not = "which of these together turns it was not tried";
  return out;
}

}  // namespace hummock
