// What changed between two designs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "engine/base/replace_folder.h"
#include "engine/base/version.h"
#include "engine/brief/asked.h"
#include "engine/brief/told.h"
#include "engine/check/catalogue.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/draw/site_plan.h"
#include "engine/report/chapters/brief_groups.h"
#include "engine/report/chapters/changes.h"
#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/checksums.h"
#include "engine/report/report.h"
#include "engine/report/setters/write_document.h"

namespace hummock::report {
namespace {

struct Pair {
  const BriefRow* a = nullptr;
  const BriefRow* b = nullptr;
};

// The rows of both briefs by requirement, in the order of B, then what only A asks.
std::vector<Pair> paired(const std::vector<BriefRow>& a, const std::vector<BriefRow>& b) {
  std::vector<Pair> pairs;
  std::set<const BriefRow*> used;
  for (const BriefRow& row : b) {
    Pair pair{nullptr, &row};
    for (const BriefRow& other : a) {
      const bool same = other.what == row.what && other.kind == row.kind &&
                        other.words == row.words && other.set == row.set &&
                        other.asked_by == row.asked_by && limited_alike(other, row);
      if (same && used.count(&other) == 0) {
        pair.a = &other;
        used.insert(&other);
        break;
      }
    }
    pairs.push_back(pair);
  }
  for (const BriefRow& row : a) {
    if (used.count(&row) == 0) pairs.push_back({&row, nullptr});
  }
  return pairs;
}

std::string standing_words(const Pair& pair) {
  if (pair.a == nullptr) return fmt::format("asked only of B: {}", to_string(pair.b->met));
  if (pair.b == nullptr) return fmt::format("asked only of A: {}", to_string(pair.a->met));
  if (pair.a->met == pair.b->met) return std::string("still ") + to_string(pair.b->met);
  return fmt::format("{}, was {}", to_string(pair.b->met), to_string(pair.a->met));
}

bool standing_changed(const Pair& pair) {
  return pair.a == nullptr || pair.b == nullptr || pair.a->met != pair.b->met;
}

std::optional<double> value_of(const BriefRow* row) {
  return row != nullptr ? row->value : std::nullopt;
}

std::optional<double> change_of(const Pair& pair) {
  const auto a = value_of(pair.a);
  const auto b = value_of(pair.b);
  if (!a || !b) return std::nullopt;
  return *b - *a;
}

Table brief_changes(const std::vector<Pair>& pairs) {
  Table table;
  table.file = "brief-compared";
  table.columns = {{"Standing", 1.8, false}, {"Requirement", 2.8, false}, {"A", 0.9, true},
                   {"B", 0.9, true},         {"Change", 0.9, true},       {"Unit", 1.0, false},
                   {"Required", 1.2, true},  {"Key", 0.0, false}};
  for (const Pair& pair : pairs) {
    const BriefRow& row = pair.b != nullptr ? *pair.b : *pair.a;
    const KeyWords key = key_words(row.what);
    table.rows.push_back({text(standing_words(pair), mark_of(row.standing)),
                          text(title_of(row, figure_info)), cell(value_of(pair.a)),
                          cell(value_of(pair.b)), cell(change_of(pair)), text(key.unit),
                          text(row.required), text(row.key)});
  }
  return table;
}

// Results are said by the catalogue; the site's keys stand as they are in its file.
std::string said(const Change& c, bool results) {
  return results ? in_words(c.what) : c.what;
}

Table changes_table(const std::string& file, const std::vector<Change>& changes, bool results) {
  Table table;
  table.file = file;
  table.columns = {{"What", 3.4, false},
                   {"A", 2.0, true},
                   {"B", 2.0, true},
                   {"Change", 1.0, true},
                   {"Key", 0.0, false}};
  for (const Change& c : changes) {
    table.rows.push_back({text(said(c, results)), c.number_a ? cell(c.number_a) : text(c.a),
                          c.number_b ? cell(c.number_b) : text(c.b),
                          c.number_a && c.number_b ? cell(*c.number_b - *c.number_a) : text(""),
                          text(c.what)});
  }
  return table;
}

struct Sides {
  const Model& a;
  const CheckResults& results_a;
  const Model& b;
  const CheckResults& results_b;
};

std::string summary(const Sides& s, const std::vector<Pair>& pairs) {
  int better = 0;
  int worse = 0;
  for (const Pair& pair : pairs) {
    if (pair.a == nullptr || pair.b == nullptr) continue;
    better += pair.a->met == Met::short_of && pair.b->met == Met::met ? 1 : 0;
    worse += pair.a->met == Met::met && pair.b->met == Met::short_of ? 1 : 0;
  }
  return fmt::format("From A to B {} requirement{} newly met and {} newly short. A: {} B: {}",
                     better, better == 1 ? " is" : "s are", worse,
                     verdict_sentence(s.a, s.results_a), verdict_sentence(s.b, s.results_b));
}

// Cards whose words the other side does not have.
Cards only_in(const std::vector<Card>& mine, const std::vector<Card>& others) {
  std::set<std::string> known;
  for (const Card& card : others) known.insert(card.text);
  Cards cards;
  for (const Card& card : mine) {
    if (known.count(card.text) == 0) cards.list.push_back(card);
  }
  return cards;
}

Front front_of(const Sides& s, const std::vector<Pair>& pairs) {
  Front front;
  front.kind = "Comparison of two designs";
  front.title =
      s.a.site.name == s.b.site.name ? s.a.site.name : s.a.site.name + " → " + s.b.site.name;
  front.facts = {{"A", s.a.site.name + " (" + s.a.site.file.filename().string() + ")"},
                 {"B", s.b.site.name + " (" + s.b.site.file.filename().string() + ")"},
                 {"Species", s.a.site.species.name == s.b.site.species.name
                                 ? s.b.site.species.name
                                 : s.a.site.species.name + " → " + s.b.site.species.name},
                 {"Program", fmt::format("hummock {}", version())}};
  front.verdict = summary(s, pairs);
  front.cautions = cautions();
  const CheckOptions defaults;
  const auto scene = still_scene({s.b, s.results_b, defaults, {}, {}, {}});
  front.picture = still_picture(*scene, 200.0 * geom::kDegree, "model-b");
  front.picture->caption = "B. " + front.picture->caption;
  return front;
}

void add_findings(Document& document, const Sides& s) {
  Chapter chapter{"findings", "Findings", "What went, and what came?", {}};
  const CheckOptions defaults;
  const auto in_a = finding_cards({s.a, s.results_a, defaults, {}, {}, {}});
  const auto in_b = finding_cards({s.b, s.results_b, defaults, {}, {}, {}});
  const Cards gone = only_in(in_a, in_b);
  const Cards come = only_in(in_b, in_a);
  chapter.blocks.push_back(Heading{"Only in B"});
  if (come.list.empty()) chapter.blocks.push_back(Text{"Nothing new.", Tone::body});
  chapter.blocks.push_back(come);
  chapter.blocks.push_back(Heading{"Only in A"});
  if (gone.list.empty()) chapter.blocks.push_back(Text{"Nothing gone.", Tone::body});
  chapter.blocks.push_back(gone);
  document.chapters.push_back(chapter);
}

void add_plans(Document& document, const Sides& s) {
  Chapter chapter{"plans", "The two plans", "", {}};
  for (const auto& [model, side] : {std::pair<const Model*, const char*>{&s.a, "A"}, {&s.b, "B"}}) {
    draw::Figure plan = draw::site_figure(*model);
    plan.name = std::string("site-plan-") + (side[0] == 'A' ? "a" : "b");
    plan.caption =
        fmt::format("{}: {}. Contours in metres above the datum.", side, model->site.name);
    chapter.blocks.push_back(Picture{plan});
  }
  document.chapters.push_back(chapter);
}

void add_inputs(Document& document, const Sides& s) {
  Chapter chapter{"record", "Inputs", "", {}};
  Table table;
  table.file = "inputs";
  table.columns = {
      {"Side", 0.5, false}, {"Role", 1.1, false}, {"File", 1.6, false}, {"SHA-256", 4.6, false}};
  const auto add = [&](const char* side, const std::vector<InputFile>& files) {
    for (const InputFile& f : files) {
      table.rows.push_back({text(side), text(f.role), text(f.name), text(f.sha256)});
    }
  };
  add("A", input_files(s.a, s.results_a));
  add("B", input_files(s.b, s.results_b));
  chapter.blocks.push_back(table);
  document.chapters.push_back(chapter);
}

Document comparison(const Sides& s) {
  const auto pairs = paired(s.results_a.brief, s.results_b.brief);
  Document document;
  document.front = front_of(s, pairs);
  document.foot = fmt::format("{} · hummock {} · a calculation aid, no warranty",
                              draw::isolated(document.front.title), version());
  document.chapters.push_back({"brief",
                               "The brief",
                               "What is met now that was not, or no longer?",
                               {brief_changes(pairs)}});
  add_findings(document, s);
  Chapter drawn{"drawn", "What was drawn differently", "", {}};
  const auto site = site_changes(s.a.site, s.b.site);
  drawn.blocks.push_back(site.empty() ? Block{Text{"Nothing.", Tone::body}}
                                      : Block{changes_table("site-compared", site, false)});
  document.chapters.push_back(drawn);
  add_plans(document, s);
  Chapter results{"results", "Every result that changed", "", {}};
  const auto found = result_changes(to_json(s.results_a, s.a), to_json(s.results_b, s.b));
  results.blocks.push_back(found.empty() ? Block{Text{"Nothing.", Tone::body}}
                                         : Block{changes_table("results-compared", found, true)});
  document.chapters.push_back(results);
  add_inputs(document, s);
  return document;
}

std::string plain(const Change& c, bool results) {
  if (c.number_a && c.number_b) {
    return fmt::format("  {}: {} → {} ({}{})\n", said(c, results), number(*c.number_a),
                       number(*c.number_b), *c.number_b > *c.number_a ? "+" : "",
                       number(*c.number_b - *c.number_a));
  }
  return fmt::format("  {}: {} → {}\n", said(c, results), c.a, c.b);
}

}  // namespace

Written write_comparison(const std::filesystem::path& folder, const Model& a,
                         const CheckResults& results_a, const Model& b,
                         const CheckResults& results_b, const Progress& progress) {
  const Document document = comparison({a, results_a, b, results_b});
  Written written;
  written.files = replace_folder(folder, is_report_file, [&](const std::filesystem::path& part) {
    return write_document(part, document, std::nullopt, progress).files;
  });
  return written;
}

std::string comparison_text(const Model& a, const CheckResults& results_a, const Model& b,
                            const CheckResults& results_b) {
  const Sides s{a, results_a, b, results_b};
  const auto pairs = paired(results_a.brief, results_b.brief);
  std::string out =
      fmt::format("A: {}\nB: {}\n{}\n\nBrief\n", a.site.name, b.site.name, summary(s, pairs));
  for (const Pair& pair : pairs) {
    const BriefRow& row = pair.b != nullptr ? *pair.b : *pair.a;
    const auto change = change_of(pair);
    if (!standing_changed(pair) && (!change || *change == 0.0)) continue;
    out += fmt::format("  {:<38} {:>9} → {:<9} {}\n", title_of(row, figure_info),
                       number(value_of(pair.a)), number(value_of(pair.b)), standing_words(pair));
  }
  out += "\nDrawn differently\n";
  for (const Change& c : site_changes(a.site, b.site)) out += plain(c, false);
  out += "\nEvery result that changed\n";
  for (const Change& c : result_changes(to_json(results_a, a), to_json(results_b, b)))
    out += plain(c, true);
  return out;
}

}  // namespace hummock::report
