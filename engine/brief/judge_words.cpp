#include "engine/brief/judge_words.h"

#include <algorithm>
#include <map>

#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

using Words = std::vector<std::string>;

bool among(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// What is there and may not be, then what is not there and must be.
std::string amiss(const Requirement& row, const Words& found) {
  Words excess, missing;
  for (const std::string& word : found) {
    const bool barred =
        among(row.none_of, word) || (!row.one_of.empty() && !among(row.one_of, word));
    if (barred) excess.push_back(word);
  }
  for (const std::string& word : row.all_of)
    if (!among(found, word)) missing.push_back(word);
  std::string words = excess.empty() ? "" : "there is " + listed(excess);
  if (!missing.empty()) words += (words.empty() ? "" : "; ") + ("there is no " + listed(missing));
  return words;
}

}  // namespace

std::string listed(const Words& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

WordForms word_forms(const Requirement& row) {
  WordForms forms{{"one_of", &row.one_of}, {"none_of", &row.none_of}, {"all_of", &row.all_of}};
  std::erase_if(forms, [](const auto& form) { return form.second->empty(); });
  return forms;
}

std::optional<AtOdds> words_at_odds(const Requirement& a, const Requirement& b) {
  for (const std::string& word : a.all_of) {
    if (among(b.none_of, word)) return AtOdds{word, "none_of", in_quotes(word)};
    if (!b.one_of.empty() && !among(b.one_of, word))
      return AtOdds{word, "one_of", "no " + in_quotes(word)};
  }
  return std::nullopt;
}

std::string required_words_of(const Requirement& row) {
  static const std::map<std::string, std::string> said{
      {"one_of", "each one of "}, {"none_of", "none of "}, {"all_of", "all of "}};
  std::string out;
  for (const auto& [key, words] : word_forms(row))
    out += (out.empty() ? "" : "; ") + said.at(key) + listed(*words);
  return out;
}

void judge_words(const Requirement& row, const Figure& figure, BriefRow& out) {
  out.outcome = figure.outcome;
  out.where = figure.where;
  if (!figure.words || figure.words->empty()) {
    out.outcome = Outcome::not_run;
    out.note = out.why = figure.why.empty() ? "the figure has no value on this site" : figure.why;
    return;
  }
  out.found = *figure.words;
  const std::string wrong = amiss(row, *out.found);
  out.met = wrong.empty() ? Met::met : Met::short_of;
  if (!wrong.empty()) out.where = wrong + (figure.where.empty() ? "" : ": " + figure.where);
}

}  // namespace hummock
