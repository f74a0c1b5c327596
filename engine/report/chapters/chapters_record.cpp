// The front page, all findings, and enough to do it all again.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/version.h"
#include "engine/check/findings.h"
#include "engine/report/chapters/brief_groups.h"
#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/checksums.h"

namespace hummock::report {
namespace {

constexpr std::size_t kFrontCards = 5;

Mark mark_of_weight(Severity weight) {
  switch (weight) {
    case Severity::way_out:
      return Mark::way_out;
    case Severity::short_of:
      return Mark::short_of;
    case Severity::look:
      return Mark::look;
  }
  return Mark::none;
}

}  // namespace

std::vector<Card> finding_cards(const Sources& sources) {
  std::vector<Card> cards;
  for (const Finding& f : findings(sources.model, sources.results)) {
    std::string at = f.at ? place(sources.model, *f.at) : "";
    if (!f.thing.empty() && f.analysis != "brief")
      at = draw::isolated(f.thing).append(at.empty() ? "" : " ").append(at);
    cards.push_back({mark_of_weight(f.weight), f.text, f.to_do, at});
  }
  return cards;
}

namespace {

const std::vector<std::string>& limits() {
  static const std::vector<std::string> lines{
      "Leap: the animal is a point on a ballistic arc scaled to the species' height and distance; "
      "a "
      "way out found is real for a point, a way not found is bounded by the resolution stated.",
      "Dig: shortest path in upright sections across the barrier; soil is diggable everywhere "
      "above "
      "rock.",
      "Sun: clear sky, direct beam by rays; leaves by Beer–Lambert. No weather, heat or wind.",
      "Water: hollows filled with rain that does not seep away. Sight: straight lines, still "
      "eyes."};
  return lines;
}

std::string place_words(const Model& model) {
  if (!model.site.place) return "not given";
  const Place& p = *model.site.place;
  const double lat = p.latitude / geom::kDegree;
  const double lon = p.longitude / geom::kDegree;
  return fmt::format("{:.4f}° {}, {:.4f}° {}, {:g} m; clock {}", std::abs(lat),
                     lat < 0.0 ? "S" : "N", std::abs(lon), lon < 0.0 ? "W" : "E", p.elevation,
                     p.time_zone);
}

std::vector<std::pair<Mark, int>> tally_of(const std::vector<BriefRow>& rows) {
  std::vector<std::pair<Mark, int>> tally{{Mark::met, 0},         {Mark::short_of, 0},
                                          {Mark::not_checked, 0}, {Mark::met_if, 0},
                                          {Mark::open, 0},        {Mark::waived, 0}};
  for (const BriefRow& row : rows) {
    if (row.in_set()) continue;
    for (auto& [mark, n] : tally) n += mark_of(row.standing) == mark ? 1 : 0;
  }
  // The first three are told even where there is none.
  tally.erase(std::remove_if(tally.begin() + 3, tally.end(),
                             [](const auto& one) { return one.second == 0; }),
              tally.end());
  return tally;
}

Mark overall(const std::vector<Card>& cards, const std::vector<std::pair<Mark, int>>& tally) {
  for (const Card& card : cards) {
    if (card.mark == Mark::way_out) return Mark::way_out;
  }
  if (tally[1].second > 0) return Mark::short_of;
  for (const Mark mark : {Mark::open, Mark::met_if})
    for (const auto& one : tally)
      if (one.first == mark) return mark;
  return tally[2].second > 0 || tally[0].second == 0 ? Mark::not_checked : Mark::met;
}

}  // namespace

std::shared_ptr<const PictureScene> still_scene(const Sources& sources) {
  const auto& day = sources.results.shade;
  Vec3 light = geom::unit(Vec3{-0.6, 0.1, 0.8});
  std::string words = "light from the west, for the eye only";
  if (day && !day->times.empty()) {
    const std::size_t k = day->times.size() * 2 / 3;
    light = day->times[k].towards;
    words = fmt::format("light of {} {}", sun::text(day->date), day->time_labels[k]);
  }
  return picture_scene(sources.model, light, words);
}

draw::Figure still_picture(const PictureScene& scene, double from, const std::string& name) {
  draw::Figure figure = model_picture(scene, from);
  figure.name = name;
  return figure;
}

Front front_page(const Sources& sources, const PictureScene& scene) {
  const Site& site = sources.model.site;
  const auto cards = finding_cards(sources);
  Front front;
  front.kind = "Enclosure report";
  front.title = site.name;
  front.facts = {{"Species", site.species.name},
                 {"Animals", fmt::format("{}", site.animals)},
                 {"Place", place_words(sources.model)},
                 {"Program", fmt::format("hummock {}", version())}};
  front.verdict = verdict_sentence(sources.model, sources.results);
  front.tally = tally_of(sources.results.brief);
  front.mark = overall(cards, front.tally);
  front.picture = still_picture(scene, 200.0 * geom::kDegree, "model");
  front.cards = {cards.begin(),
                 cards.begin() + static_cast<std::ptrdiff_t>(std::min(kFrontCards, cards.size()))};
  if (cards.size() > kFrontCards) {
    front.more = fmt::format("{} more under “All findings”.", cards.size() - kFrontCards);
  }
  front.cautions = cautions();
  front.limits = limits();
  return front;
}

Chapter findings_chapter(const Sources& sources) {
  Chapter chapter{"findings", "All findings", "What should be looked at first?", {}};
  const auto cards = finding_cards(sources);
  if (cards.empty()) {
    chapter.blocks.push_back(Text{"Nothing was found in what was checked.", Tone::body});
    return chapter;
  }
  chapter.blocks.push_back(Text{
      "▲ an animal can leave · ✗ short of a requirement · ○ worth a look. Places are (x, y) of "
      "the site file, in metres.",
      Tone::small});
  chapter.blocks.push_back(Cards{cards});
  return chapter;
}

namespace {

std::vector<Cell> figure_row(const std::string& what, const Sourced<double>& f, double per_unit,
                             const std::string& unit) {
  std::string basis = f.evidence;
  if (!f.measures.empty()) basis += (basis.empty() ? "" : ", ") + f.measures;
  return {text(what), cell(f.value / per_unit), text(unit), text(basis), text(f.source)};
}

Table species_table(const Species& s) {
  Table table;
  table.file = "species-figures";
  table.title = "What the animal is taken to do: " + s.name;
  table.columns = {{"Figure", 1.5, false},
                   {"Value", 1.1, true},
                   {"Unit", 0.5, false},
                   {"Evidence, measure", 1.4, false},
                   {"Source", 4.0, false}};
  table.rows = {figure_row("leap height", s.leap_height, 1.0, "m"),
                figure_row("leap distance", s.leap_distance, 1.0, "m"),
                figure_row("grip", s.grip, 1.0, "m"),
                figure_row("leap from a climbed face", s.cling_leap, 1.0, "share"),
                figure_row("steepest it stands on", s.stand_slope, geom::kDegree, "°"),
                figure_row("smallest hole", s.least_opening, 1.0, "m"),
                figure_row("digs deep", s.dig_depth, 1.0, "m"),
                figure_row("digs long", s.dig_length, 1.0, "m"),
                figure_row("wades", s.wade_depth, 1.0, "m"),
                figure_row("eye height", s.eye_height, 1.0, "m")};
  table.rows.push_back({text("body"),
                        text(fmt::format("{:.2f} × {:.2f} × {:.2f}", s.body.value[0],
                                         s.body.value[1], s.body.value[2])),
                        text("m"), text(""), text(s.body.source)});
  std::string climbs;
  for (const std::string& c : s.climbs.value) climbs += (climbs.empty() ? "" : ", ") + c;
  table.rows.push_back({text("climbs"), text(climbs.empty() ? "nothing" : climbs), text(""),
                        text(""), text(s.climbs.source)});
  return table;
}

Facts settings_facts(const Sources& sources) {
  const EffectiveSettings& o = sources.results.settings;
  std::string asked;
  for (const std::string& name : o.only) asked += (asked.empty() ? "" : ", ") + name;
  return {{{"Analyses asked for", asked.empty() ? "all" : asked},
           {"Day for the sun", sun::text(o.shade.date)},
           {"Steps of the sun", fmt::format("{:g} minutes", o.shade.step_minutes)},
           {"Leap resolution", fmt::format("{:g} m", o.leap.resolution)},
           {"Leap search limit", fmt::format("{:g} × leap height", o.leap.search_limit)},
           {"Margin asked of a leap", fmt::format("{:g}", o.leap.required_margin)},
           {"Ground cell", fmt::format("{:g} m", sources.model.ground.grid.cell)},
           {"Program", fmt::format("hummock {}", version())}}};
}

Table inputs_table(const Sources& sources) {
  Table table;
  table.file = "inputs";
  table.title = "Inputs";
  table.columns = {
      {"Role", 1.1, false}, {"File", 1.8, false}, {"Bytes", 0.7, true}, {"SHA-256", 4.6, false}};
  for (const InputFile& f : input_files(sources.model, sources.results)) {
    table.rows.push_back(
        {text(f.role), text(f.name),
         Cell{fmt::format("{}", f.bytes), static_cast<double>(f.bytes), Mark::none},
         text(f.sha256)});
  }
  return table;
}

}  // namespace

Chapter record_chapter(const Sources& sources) {
  Chapter chapter{"record", "How to do it again", "", {}};
  chapter.blocks.push_back(species_table(sources.model.site.species));
  chapter.blocks.push_back(Heading{"Settings"});
  chapter.blocks.push_back(settings_facts(sources));
  Table inputs = inputs_table(sources);
  if (!inputs.rows.empty()) chapter.blocks.push_back(inputs);
  Bullets notes;
  for (const std::string& note : sources.model.notes) notes.lines.push_back(note);
  for (const std::string& warning : sources.model.site.warnings) notes.lines.push_back(warning);
  for (const auto& [analysis, why] : sources.results.not_run) {
    notes.lines.push_back(fmt::format("{} was not run: {}", analysis, to_string(why)));
  }
  if (!notes.lines.empty()) {
    chapter.blocks.push_back(Heading{"Notes and warnings"});
    chapter.blocks.push_back(notes);
  }
  chapter.blocks.push_back(Heading{"Models and their limits"});
  chapter.blocks.push_back(Bullets{limits()});
  return chapter;
}

}  // namespace hummock::report
