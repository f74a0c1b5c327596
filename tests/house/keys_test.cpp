// A key of the site file stands in the code of at most five sources: its row, its member and its
// use. Looked at are keys of two words or more (height, at, kind are English words). What stands in
// more is in offenders.txt with its count, and that list may only shrink. Figures of the species
// file are the animal's own words, which every analysis uses: they are not looked at.

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "tests/house/source_tree.h"

namespace hummock::house {
namespace {

constexpr int kMostSources = 5;

std::set<std::string> compound_keys() {
  std::set<std::string> out;
  for (const auto& [path, keys] : grammar::keys_of(grammar::site_table()))
    for (const std::string& key : keys)
      if (key.find('_') != std::string::npos) out.insert(key);
  return out;
}

bool is_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

// The words of a file's code, each once; comments may say what they like, and names of the standard
// library (std::all_of) are none of ours.
std::set<std::string> words_of(const SourceFile& file) {
  std::set<std::string> out;
  for (const std::string& line : file.lines) {
    const std::string code = line.substr(0, line.find("//")) + " ";
    std::string word;
    for (std::size_t i = 0; i < code.size(); ++i) {
      if (is_word(code[i])) {
        word += code[i];
      } else if (!word.empty()) {
        const std::size_t start = i - word.size();
        const bool of_std = start >= 5 && code.compare(start - 5, 5, "std::") == 0;
        if (!of_std) out.insert(word);
        word.clear();
      }
    }
  }
  return out;
}

// "key stand_off 9" of offenders.txt.
std::map<std::string, int> listed() {
  std::map<std::string, int> counts;
  for (const std::string& line : list_of("offenders.txt")) {
    std::istringstream in(line);
    std::string kind, key;
    int count = 0;
    if (in >> kind >> key >> count && kind == "key") counts[key] = count;
  }
  return counts;
}

TEST(House, AKeyStandsInAtMostFiveSources) {
  const std::set<std::string> keys = compound_keys();
  ASSERT_GE(keys.size(), 15U);
  std::map<std::string, int> found;
  for (const char* room : {"engine", "viewer", "geometry"})
    for (const SourceFile& file : sources_below(room))
      for (const std::string& word : words_of(file))
        if (keys.count(word) > 0) ++found[word];
  const std::map<std::string, int> known = listed();
  for (const auto& [key, count] : found) {
    const auto entry = known.find(key);
    EXPECT_LE(count, entry == known.end() ? kMostSources : entry->second)
        << key << ": ask for it in one place, or give what is made of it a name of its own";
  }
  for (const auto& [key, count] : known)
    EXPECT_TRUE(found[key] > kMostSources && found[key] == count)
        << key << " stands in " << found[key] << ", not " << count
        << ": put that right in tests/house/offenders.txt";
}

}  // namespace
}  // namespace hummock::house
