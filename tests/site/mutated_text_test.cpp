// Whatever a file holds, the reader returns a site or throws InputError; nothing else.
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "engine/site/read_site.h"
#include "engine/toml/toml_tree.h"
#include "tests/site/good_site.h"

namespace hummock {
namespace {

// Returns whether the text was refused.
bool reads_or_is_refused(const std::string& text) {
  try {
    read_site_text(text, good_site_file());
  } catch (const InputError& error) {
    const std::string line = error.what();
    EXPECT_EQ(line.find('\n'), std::string::npos) << line;
    EXPECT_FALSE(error.found().empty());
    EXPECT_FALSE(error.allowed().empty());
    return true;
  }
  return false;
}

class Mutations {
 public:
  explicit Mutations(unsigned seed) : random_(seed) {}
  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_);
  }
  void mutate(std::string& text) {
    if (text.empty()) return;
    const std::size_t at = below(text.size());
    switch (below(6)) {
      case 0:
        text[at] = static_cast<char>(below(256));
        break;
      case 1:
        text.erase(at, 1 + below(8));
        break;
      case 2:
        text.insert(at, odd_piece());
        break;
      case 3:  // a piece of the text once more
        text.insert(at, text.substr(below(text.size()), below(60)));
        break;
      case 4:
        text[at] = "[]{}=\"'.,#\n-0"[below(13)];
        break;
      default:
        remove_line(text, at);
    }
  }

 private:
  std::string odd_piece() {
    static const char* const kPieces[] = {"nan",
                                          "inf",
                                          "-1e308",
                                          "[[",
                                          "]]",
                                          "\"\"\"",
                                          "1e999",
                                          "\\u0000",
                                          "{}",
                                          "= =",
                                          "0x7fffffffffffffff",
                                          "99999999999999999999",
                                          "\r",
                                          "\xc3",
                                          "1979-05-27",
                                          "[object]",
                                          "\n\n",
                                          "true"};
    return kPieces[below(std::size(kPieces))];
  }
  static void remove_line(std::string& text, std::size_t at) {
    const std::size_t start = text.rfind('\n', at);
    const std::size_t end = text.find('\n', at);
    if (start == std::string::npos || end == std::string::npos || end <= start) return;
    text.erase(start, end - start);
  }
  std::mt19937 random_;
};

TEST(MutatedText, ATextCutAnywhereReadsOrIsRefused) {
  const std::string& good = good_site_text();
  int refused = 0;
  for (std::size_t length = 0; length < good.size(); length += 7) {
    refused += reads_or_is_refused(good.substr(0, length)) ? 1 : 0;
  }
  EXPECT_GT(refused, 100);
}

TEST(MutatedText, ATextChangedAtRandomReadsOrIsRefused) {
  const unsigned seed = 20260621;
  SCOPED_TRACE(seed);
  Mutations mutations(seed);
  int refused = 0;
  constexpr int kTexts = 3000;
  for (int i = 0; i < kTexts; ++i) {
    std::string text = good_site_text();
    for (std::size_t n = 1 + mutations.below(6); n > 0; --n) mutations.mutate(text);
    refused += reads_or_is_refused(text) ? 1 : 0;
  }
  // Most changes hit a key or a number; comments and names may be changed freely.
  EXPECT_GT(refused, kTexts / 2);
  EXPECT_LT(refused, kTexts);
}

TEST(MutatedText, DeepNestingIsRefusedAndDoesNotRunOutOfStack) {
  EXPECT_TRUE(reads_or_is_refused("a = " + std::string(100000, '[')));
  EXPECT_TRUE(reads_or_is_refused("a = " + std::string(5000, '[') + std::string(5000, ']')));
  std::string inline_tables = "a = ";
  for (int i = 0; i < 500000; ++i) inline_tables += "{a=";
  EXPECT_TRUE(reads_or_is_refused(inline_tables));
  std::string dotted = "a";
  for (int i = 0; i < 500000; ++i) dotted += ".a";
  EXPECT_TRUE(reads_or_is_refused(dotted + " = 1"));
  EXPECT_TRUE(reads_or_is_refused("[" + dotted + "]"));
  // The deepest that is let through to the parser: 100 dots a line, 200 lists and tables inside
  // each other.
  std::string deep;
  for (int i = 0; i < 120; ++i) deep += dotted.substr(0, 201) + " = [\n{";
  EXPECT_TRUE(reads_or_is_refused(deep));
  deep += "b = 1";
  for (int i = 0; i < 120; ++i) deep += "}]";
  EXPECT_TRUE(reads_or_is_refused(deep));
}

// Each line is well within what a line may hold; together they lie 78 deep.
TEST(MutatedText, TablesInsideEachOtherWithoutEndAreToldByTheirDepth) {
  std::string deep;
  for (int i = 0; i < 3; ++i) deep += "a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a = [\n{";
  deep += "b = 1";
  for (int i = 0; i < 3; ++i) deep += "}]";
  try {
    parse_toml(deep, "deep.toml");
    FAIL() << "not refused";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("64 deep"), std::string::npos) << error.what();
  }
}

TEST(MutatedText, ZeroBytesAreRefused) {
  EXPECT_TRUE(reads_or_is_refused(std::string(1000, '\0')));
  EXPECT_TRUE(reads_or_is_refused(
      replaced(good_site_text(), "good.species.toml", "good\\u0000.species.toml")));
}

}  // namespace
}  // namespace hummock
