#include "engine/check/body_doubts.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/rows/premises.h"
#include "engine/model/climbed.h"
#include "engine/species/body.h"

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
      {.key = "dig_depth",
       .words = "it digs as deep as",
       .figure = [](Species& s) { return &s.dig_depth; },
       .share = kMore,
       .only = "surfaces"},
      {.key = "crouch",
       .words = "it fits where it is no lower than",
       .figure = [](Species& s) { return s.crouch ? &*s.crouch : nullptr; },
       .share = kMore}};
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

std::optional<BodyDoubt> doubt_of(const Model& model, const Row& row) {
  Species species = model.site.species;
  const Sourced<double>* figure = row.figure(species);
  if (figure == nullptr) return std::nullopt;
  const std::optional<double> end = end_of(*figure, row.share);
  if (!end) return std::nullopt;
  const auto say = [&](double v) { return plain_figure(v / row.unit) + row.suffix; };
  return BodyDoubt{told(model, row.key, row.words, say(figure->value), say(*end)),
                   [&row, careful = *end](Species& s) { row.figure(s)->value = careful; }};
}

using Sides = std::array<double, 3>;

void grow_to(const Sides& other, Sides& sides) {
  for (std::size_t k = 0; k < sides.size(); ++k) sides[k] = std::max(sides[k], other[k]);
}

std::optional<BodyDoubt> doubt_of_the_body(const Model& model) {
  const auto& body = model.site.species.body;
  Sides end = body.value;
  if (body.careful) grow_to(*body.careful, end);
  // A careful body that is smaller is of the other side; one that is the used one says that it is.
  const bool given = body.careful && (end != body.value || *body.careful == body.value);
  if (!given && unsure(body))
    for (double& side : end) side *= kMore;
  for (const auto& record : body.records) grow_to(record.value, end);
  if (end == body.value) return std::nullopt;
  return BodyDoubt{told(model, "body", "its body measures", in_metres(body.value), in_metres(end)),
                   [end](Species& s) { s.body.value = end; }};
}

// The young's, or the grown's alone where there are none.
std::optional<double> lesser_young(const Species& s) {
  return s.young && s.young->leap_height ? end_of(*s.young->leap_height, kLess) : std::nullopt;
}

// Less of the leap comes to less ground. Its distance was seen of the same animal as its height.
std::optional<BodyDoubt> doubt_of_the_leap(const Model& model) {
  const Species& s = model.site.species;
  const double height = s.leap_height.value, distance = s.leap_distance.value;
  const auto low = end_of(s.leap_height, kLess), near = end_of(s.leap_distance, kLess);
  const auto young = lesser_young(s);
  if (!low && !near && !young) return std::nullopt;
  const double least = low.value_or(height);
  const double least_far = near.value_or(distance * least / height);
  const auto say = [](double v) { return plain_figure(v) + " m"; };
  Assumption a =
      low || young
          ? told(model, "leap_height",
                 young && !low ? "the young leap as high as" : "it leaps as high as",
                 young && !low ? say(s.young->leap_height->value) : say(height),
                 say(low ? least : *young))
          : told(model, "leap_distance", "it leaps as far as", say(distance), say(least_far));
  return BodyDoubt{std::move(a), [=](Species& careful) {
                     careful.leap_height.value = least;
                     careful.leap_distance.value = least_far;
                     if (young) careful.young->leap_height->value = *young;
                   }};
}

template <class Value>
bool another_says(const Sourced<Value>& figure, const Value& value) {
  return std::any_of(figure.records.begin(), figure.records.end(),
                     [&](const Sourced<Value>& record) { return record.value == value; });
}

// That it swims lets it come to ground across the water.
std::optional<BodyDoubt> doubt_of_swimming(const Model& model) {
  const auto& swims = model.site.species.swims;
  if (model.site.waters.empty() || !body_of(model.site.species).swims) return std::nullopt;
  if (swims && !unsure(*swims) && !another_says(*swims, false)) return std::nullopt;
  return BodyDoubt{
      told(model, "swims", "it swims:", swims ? "yes" : "yes, for want of a word", "no"),
      [](Species& s) {
        if (!s.swims) s.swims.emplace();
        s.swims->value = false;
      }};
}

// What swims may not come out again but where it wades.
std::optional<BodyDoubt> doubt_of_leaving_the_water(const Model& model) {
  const Species& s = model.site.species;
  const Body body = body_of(s);
  if (model.site.waters.empty() || !body.swims) return std::nullopt;
  const double used = body.leap_from_water;
  const auto end = s.leap_from_water ? end_of(*s.leap_from_water, kLess) : std::optional(0.0);
  if (!end || *end >= used) return std::nullopt;
  return BodyDoubt{told(model, "leap_from_water", "its share of a leap from the water is",
                        plain_figure(used), plain_figure(*end)),
                   [careful = *end](Species& taken) {
                     if (!taken.leap_from_water) taken.leap_from_water.emplace();
                     taken.leap_from_water->value = careful;
                   }};
}

bool drains(const Model& model, const Part& part) {
  return part.kind == PartKind::water && part.source >= 0 &&
         model.site.waters[static_cast<std::size_t>(part.source)].drain;
}

// What it swims it comes out of again at another level once it is emptied, or not at all.
std::optional<BodyDoubt> doubt_of_full_waters(const Model& model) {
  const std::string words = leap::full_waters(model.site);
  if (words.empty() || !body_of(model.site.species).swims) return std::nullopt;
  Assumption a = told(model, "drained", "", "full", "empty");
  a.words = words;
  return BodyDoubt{std::move(a), {}, [](Model& empty) {
                     for (Part& part : empty.parts)
                       if (drains(empty, part)) part.mesh = {};
                   }};
}

using Surfaces = std::vector<std::string>;

// What every record says that it climbs; nothing where nobody has shown the list.
Surfaces surely_climbed(const Sourced<Surfaces>& climbs) {
  Surfaces sure = climbs.value;
  const auto unsaid_by = [](const Sourced<Surfaces>& record, const std::string& surface) {
    return std::find(record.value.begin(), record.value.end(), surface) == record.value.end();
  };
  for (const auto& record : climbs.records)
    std::erase_if(sure, [&](const std::string& surface) { return unsaid_by(record, surface); });
  return unsure(climbs) ? Surfaces{} : sure;
}

std::string listed(const Surfaces& list) {
  std::string words;
  for (const std::string& surface : list) words += (words.empty() ? "" : ", ") + surface;
  return words.empty() ? "nothing" : words;
}

// Is there a thing that it climbs and may not leap?
bool has_climbed_things(const Model& model) {
  const Species& s = model.site.species;
  Species least = s;
  if (const auto leap = doubt_of_the_leap(model)) leap->take(least);
  return std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    const bool thing = part.kind == PartKind::object || part.kind == PartKind::house;
    if (!thing || part.mesh.empty() || !climbs(s, part.surface)) return false;
    const geom::Box3 box = geom::bounds(part.mesh);
    return box.hi.z - box.lo.z > least.leap_height.value;
  });
}

// That it climbs lets it come to ground over a thing it does not leap.
std::optional<BodyDoubt> doubt_of_climbing(const Model& model) {
  const auto& climbed = model.site.species.climbs;
  const Surfaces sure = surely_climbed(climbed);
  if (sure == climbed.value || !has_climbed_things(model)) return std::nullopt;
  return BodyDoubt{told(model, "climbs", "it climbs", listed(climbed.value), listed(sure)),
                   [sure](Species& careful) { careful.climbs.value = sure; }};
}

std::optional<BodyDoubt> doubt_of_the_cold(const Model& model) {
  const auto& low = model.site.species.outdoor_low;
  if (!low) return std::nullopt;
  const auto end = careful_end(*low, low->value + kWarmer, true);
  if (!end) return std::nullopt;
  const auto say = [](double t) { return plain_figure(t) + " °C"; };
  return BodyDoubt{
      told(model, "outdoor_low", "it bears air outdoors down to", say(low->value), say(*end)),
      [careful = *end](Species& s) { s.outdoor_low->value = careful; }};
}

}  // namespace

std::vector<BodyDoubt> body_doubts(const Model& model, const std::string& analysis) {
  std::vector<BodyDoubt> list;
  const auto add = [&](std::optional<BodyDoubt> doubt) {
    if (doubt) list.push_back(std::move(*doubt));
  };
  const bool on_ground = analysis != "water";  // of its own, come to by leaps
  add(doubt_of_the_body(model));
  add(doubt_of_swimming(model));
  if (on_ground) add(doubt_of_full_waters(model));
  add(doubt_of_climbing(model));
  for (const Row& row : rows())
    if (row.only == nullptr || analysis == row.only) add(doubt_of(model, row));
  if (on_ground) add(doubt_of_the_leap(model));
  if (on_ground) add(doubt_of_leaving_the_water(model));
  if (analysis == "houses") add(doubt_of_the_cold(model));
  return list;
}

}  // namespace hummock
