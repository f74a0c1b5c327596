#include "engine/brief/signed.h"

#include <algorithm>
#include <map>

#include "engine/toml/table_cursor.h"
#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

using Words = std::vector<std::string>;

Where key_in(Where where, const char* key) {
  where.key += std::string(where.key.empty() ? "" : ".") + key;
  return where;
}

std::string place_in_words(const Where& where) {
  return where.file + ":" + std::to_string(where.line) + ": " + where.key;
}

// Names that stand once, each with where it stands.
class Once {
 public:
  explicit Once(std::string allowed) : allowed_(std::move(allowed)) {}
  void add(const std::string& name, const Where& where, const char* key) {
    refuse_other(name, where, key);
    seen_.emplace(name, where);
  }
  // One that stands already.
  void refuse_other(const std::string& name, const Where& where, const char* key) const {
    const auto first = seen_.find(name);
    if (first == seen_.end()) return;
    throw InputError(key_in(where, key),
                     in_quotes(name) + ", as in " + place_in_words(first->second), allowed_);
  }

 private:
  std::map<std::string, Where> seen_;
  std::string allowed_;
};

void check_names_once(const Site& site) {
  Once briefs("a brief file with a name of its own");
  for (const BriefFile& brief : site.briefs) briefs.add(brief.name, brief.where, "name");
  Once ids("an id or a name of its own");
  for (const AskedEither& one : eithers_asked(site))
    ids.add(one.either->name, one.either->where, "name");
  const std::vector<Asked> rows = rows_asked(site);
  for (const Asked& asked : rows)
    if (!asked.row->id.empty()) ids.add(asked.row->id, asked.row->where, "id");
  for (const Asked& asked : rows)
    if (!asked.row->ask.empty()) ids.refuse_other(asked.row->ask, asked.row->where, "ask");
}

bool same_words(const Requirement& row, const std::string& what) {
  return !row.ask.empty() && (what == row.ask || (!row.id.empty() && what == row.id));
}

// `all_known`: there is no other file whose row it could answer.
void check_word(const Confirmation& word, const Words& assumable, const Words& asks,
                bool all_known) {
  const auto among = [&](const Words& list) {
    return std::find(list.begin(), list.end(), word.what) != list.end();
  };
  if (among(assumable) || among(asks)) return;
  Words all = assumable;
  all.insert(all.end(), asks.begin(), asks.end());
  const auto near = nearest_word(word.what, all);
  if (!near && !all_known) return;
  throw InputError(key_in(word.where, "what"), in_quotes(word.what),
                   near ? in_quotes(*near) + " (did you mean that?)"
                        : "the word of an if, or the id or the words of a row `ask` of this file");
}

std::string signed_by(const std::string& by, const std::string& on, const std::string& more) {
  return by + ", " + on + (more.empty() ? "" : ": " + more);
}

bool is_of(const Waiver& waiver, const std::string& by, const std::string& key,
           const std::string& what) {
  return waiver.of == by && !waiver.what.empty() && (waiver.what == key || waiver.what == what);
}

}  // namespace

void check_signed(const Site& site, const Words& assumable) {
  check_names_once(site);
  Words of_species, all;
  for (const Asked& asked : rows_asked(site)) {
    if (asked.row->ask.empty()) continue;
    for (const std::string& key : {asked.row->id, asked.row->ask}) {
      if (key.empty()) continue;
      all.push_back(key);
      if (asked.by_species) of_species.push_back(key);
    }
  }
  for (const Confirmation& word : site.species.confirmations)
    check_word(word, assumable, of_species, true);
  for (const Confirmation& word : site.confirmations) check_word(word, assumable, all, false);
}

std::string answer_of(const Site& site, const Asked& asked) {
  std::string answer;
  const auto take = [&](const std::vector<Confirmation>& words) {
    for (const Confirmation& word : words)
      if (same_words(*asked.row, word.what)) answer = signed_by(word.by, word.on, word.note);
  };
  if (asked.by_species) take(site.species.confirmations);
  take(site.confirmations);
  return answer;
}

std::string waiver_of(const Site& site, const Asked& asked) {
  if (asked.set != nullptr || !asked.row->ask.empty()) return {};
  for (const Waiver& waiver : site.waivers)
    if (is_of(waiver, asked.by, asked.row->id, asked.row->what))
      return signed_by(waiver.by, waiver.on, waiver.reason);
  return {};
}

std::string waiver_of(const Site& site, const AskedEither& asked) {
  for (const Waiver& waiver : site.waivers)
    if (is_of(waiver, asked.by, asked.either->name, asked.either->name))
      return signed_by(waiver.by, waiver.on, waiver.reason);
  return {};
}

namespace {

bool is_met(const BriefRow& row) {
  return row.standing == Standing::met || row.standing == Standing::met_if ||
         row.standing == Standing::met_as_drawn;
}

// Empty: it signs something, or that cannot be told.
std::string idle_because(const Waiver& waiver, const std::vector<BriefRow>& rows) {
  std::vector<const BriefRow*> mine;
  bool in_words = false, in_set = false;
  const BriefRow* of_another = nullptr;
  for (const BriefRow& row : rows) {
    if (waiver.what != row.key && waiver.what != row.what) continue;
    if (row.asked_by != waiver.of) {
      of_another = &row;
      continue;
    }
    if (row.kind == RowKind::ask)
      in_words = true;
    else if (row.in_set())
      in_set = true;
    else
      mine.push_back(&row);
  }
  const auto all = [&](const auto& test) {
    return std::all_of(mine.begin(), mine.end(), [&](const BriefRow* row) { return test(*row); });
  };
  if (mine.empty() && in_words)
    return "a row in words, which a confirmation answers and no waiver signs off";
  if (mine.empty() && in_set)
    return "a row of a set, which is signed off by the name of its either";
  if (mine.empty() && of_another != nullptr)
    return "a row that " + asker_of(*of_another) + " asks: say so in `of`, or leave `of` out";
  if (mine.empty()) return "a row that is gone: nothing asks it";
  if (all([](const BriefRow& row) { return row.standing == Standing::not_asked; }))
    return "a row that is not asked on this site";
  if (all([](const BriefRow& row) { return is_met(row) || row.standing == Standing::not_asked; }))
    return "a row that is met";
  return {};
}

}  // namespace

std::vector<std::string> idle_waivers(const Site& site, const std::vector<BriefRow>& rows) {
  std::vector<std::string> lines;
  for (const Waiver& waiver : site.waivers) {
    const std::string because = idle_because(waiver, rows);
    if (because.empty()) continue;
    const std::string of = waiver.of.empty() ? "" : " of " + in_quotes(waiver.of);
    std::string& line = lines.emplace_back("the waiver by " + waiver.by);
    line += " of " + in_quotes(waiver.what) + of + " on " + waiver.on;
    line += " is for " + because;
  }
  return lines;
}

std::vector<std::string> idle_answers(const Site& site, const std::vector<BriefRow>& rows,
                                      const Words& assumable) {
  std::vector<std::string> lines;
  for (const Confirmation& word : site.confirmations) {
    const bool of_an_if =
        std::find(assumable.begin(), assumable.end(), word.what) != assumable.end();
    if (of_an_if) continue;
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const BriefRow& r) {
      return r.kind == RowKind::ask && (r.key == word.what || r.words == word.what);
    });
    const bool gone = row == rows.end();
    if (!gone && row->standing != Standing::not_asked) continue;
    lines.push_back("what " + word.by + " confirmed of " + in_quotes(word.what) + " on " + word.on +
                    (gone ? " answers nothing: no row in words has this id or these words"
                          : " answers a row that is not asked on this site"));
  }
  return lines;
}

}  // namespace hummock
