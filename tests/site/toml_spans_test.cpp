// The scanner that says where each value stands agrees with the parser about what it is.
#include "engine/toml/toml_spans.h"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <set>

#include "engine/base/input_error.h"
#include "engine/toml/toml_tree.h"
#include "tests/site/good_site.h"

namespace hummock {
namespace {

bool is_plain(const std::string& key) {
  return !key.empty() && key.find_first_not_of(
                             "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                             "0123456789_-") == std::string::npos;
}

// Path → what stands there, for every scalar. False when a key needs quotes.
bool collect(const TomlNode& node, const std::string& path,
             std::map<std::string, std::string>& out) {
  if (node.kind == TomlNode::Kind::table) {
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
      if (!is_plain(node.keys[i])) return false;
      const std::string inner = path.empty() ? node.keys[i] : path + "." + node.keys[i];
      if (!collect(node.items[i], inner, out)) return false;
    }
  } else if (node.kind == TomlNode::Kind::list) {
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      if (!collect(node.items[i], path + "[" + std::to_string(i) + "]", out)) return false;
    }
  } else {
    out[path] = describe(node) + "/" + node.text;
  }
  return true;
}

// Whether the text was TOML and could be compared.
bool agree(const std::string& text) {
  TomlNode tree;
  try {
    tree = parse_toml(text, "");
  } catch (const InputError&) {
    return false;
  }
  std::map<std::string, std::string> expected;
  if (!collect(tree, "", expected)) return false;
  std::map<std::string, std::string> found;
  for (const ValueSpan& span : scan_toml(text).values) {
    if (span.kind != SpanKind::scalar) continue;
    const std::string value = text.substr(span.begin, span.end - span.begin);
    const TomlNode one = parse_toml("v = " + value + "\n", "");
    found[span.path] = describe(one.items.at(0)) + "/" + one.items.at(0).text;
  }
  EXPECT_EQ(found, expected) << text;
  return true;
}

TEST(TomlSpans, AgreeWithTheParserOnTheGoodSite) {
  EXPECT_TRUE(agree(good_site_text()));
  EXPECT_TRUE(agree(good_species_text()));
}

// Each once misled a scanner, or could.
TEST(TomlSpans, AgreeOnTextsThatMislead) {
  for (const char* text : {
           "a = \"x\" # y = 2\nb = 3\n",
           "a = \"\\\"\"\nb = '\\'\n",
           "a = \"\"\"\n[t]\nb = 1\n\"\"\"\nc = 2\n",
           "a = \"\"\"\"quoted\"\"\"\"\nb = 1\n",
           "a = '''it's ''''\nb = 1\n",
           "a = \"\"\"\\\"\"\"\"\"\"\nb = 1\n",
           "a = [ # ] = 1\n 1, # [\n [2, 3 ] , ]\nb = 1\n",
           "a = { b = { c = [ { d = 1 } ] }, e.f = 2 }\n",
           "a.b.c = 1\n[a.d]\ne = 2\n",
           "[a]\n[a.b]\nc = 1\n[d]\n",
           "[[a]]\nb = 1\n[[a.c]]\nd = 1\n[[a.c]]\nd = 2\n[[a]]\nb = 2\n[[a.c]]\nd = 3\n[a.e]\nf = "
           "4\n",
           "a = 1979-05-27 07:32:00\nb = 07:32:00 # c\n",
           "a = +1_000\nb = -0.0\nc = 1e5\nd = 0xff\ne = inf\n",
           "a = \"\"\nb = ''\nc = []\nd = {}\n",
           "\"a\" = 1\n'b' = 2\n[ \"c\" . d ]\ne = 3\n",
           "\xEF\xBB\xBF"
           "a = 1\r\nb = [\r\n1,\r\n]\r\n",
           "   a = 1\n\t[b]\n\tc = 2",
       }) {
    EXPECT_TRUE(agree(text)) << text;
  }
}

TEST(TomlSpans, AgreeOnRandomChangesOfTheGoodSite) {
  const unsigned seed = 99;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  int compared = 0;
  for (int i = 0; i < 2500; ++i) {
    std::string text = good_site_text();
    for (std::size_t n = 1 + below(4); n > 0; --n) {
      const std::size_t at = below(text.size());
      switch (below(3)) {
        case 0:
          text[at] = "[]{}=\"'.,#\n 0a"[below(14)];
          break;
        case 1:
          text.erase(at, 1);
          break;
        default:
          text.insert(at, text.substr(below(text.size()), below(30)));
      }
    }
    compared += agree(text) ? 1 : 0;
  }
  EXPECT_GT(compared, 200);
}

}  // namespace
}  // namespace hummock
