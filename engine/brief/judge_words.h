// A figure whose value is words, held against the words that may or must be among them.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/brief/brief.h"

namespace hummock {

// "each one of mesh, solid; none of glass; all of mesh"
std::string required_words_of(const Requirement& row);

// The forms the row has, by key, with their words.
using WordForms = std::vector<std::pair<std::string, const std::vector<std::string>*>>;
WordForms word_forms(const Requirement& row);

// A word that `a` asks to be there and `b` does not allow, and the key of `b` that says so.
struct AtOdds {
  std::string word, key, found;
};
std::optional<AtOdds> words_at_odds(const Requirement& a, const Requirement& b);

// Sets `found`, whether it is met, and in `where` which words are amiss. A figure without words is
// not checked; so is one of no word at all, of which "each" would say nothing.
void judge_words(const Requirement& row, const Figure& figure, BriefRow& out);

// "mesh, solid"
std::string listed(const std::vector<std::string>& words);

}  // namespace hummock
