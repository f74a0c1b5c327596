// Every key of every table: values drawn at random (seeded), written by the rows, read by the rows,
// equal. Things that an odd case refuses (a base above its height) are drawn again; that each table
// is accepted often and each key is met is asked for.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "engine/grammar/write_table.h"
#include "tests/site/good_site.h"

namespace hummock::grammar {
namespace {

class Draw {
 public:
  explicit Draw(unsigned seed) : random_(seed) {}

  void fill(const Table& table, void* thing) {
    for (const Row& row : table.rows) {
      if (!means_something(row, thing)) continue;
      if (has_table(row)) {
        fill_tables(row, thing);
      } else if (row.needed || row.kind == Kind::name || chance(0.5)) {
        set_value(row, thing, value(row));
        met.insert(row.key);
      }
    }
  }
  std::set<std::string> met;

 private:
  bool chance(double p) { return std::bernoulli_distribution(p)(random_); }
  double between(double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random_);
  }
  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_);
  }
  double number(const Range& range) {
    if (range.hi >= kAnyFigure.hi) return between(-1e3, 1e3);
    if (chance(0.1)) return range.hi;
    if (chance(0.1) && !range.above_lo) return range.lo;
    return std::max(between(range.lo, range.hi), range.above_lo ? 1e-9 : range.lo);
  }
  int whole(const Range& range) {
    return std::uniform_int_distribution<int>(static_cast<int>(range.lo),
                                              static_cast<int>(range.hi))(random_);
  }
  Vec2 point() { return {between(-1e5, 1e5), between(-1e5, 1e5)}; }
  std::string text() {
    static const Words kTexts{"plain", "with \"quotes\" and \\", "märz ° ² ü", "# no comment",
                              "two words"};
    return kTexts[below(kTexts.size())] + " " + std::to_string(below(1000));
  }
  MonthDay day() { return {static_cast<int>(1 + below(12)), static_cast<int>(1 + below(28))}; }

  Value value(const Row& row) {
    static const std::string folder = good_site_file().parent_path().string();
    switch (row.kind) {
      case Kind::length:
      case Kind::angle:
      case Kind::share:
      case Kind::number:
        return number(row.range);
      case Kind::count:
        return whole(row.range);
      case Kind::choice:
        return row.words[below(row.words.size())];
      case Kind::flag:
        return chance(0.5);
      case Kind::text:
        if (row.key == "time_zone") return std::string("-09:30");
        if (row.key == "id") return "row-" + std::to_string(below(1000));
        if (row.key == "what") return std::string("space.plan_area_m2");
        return text();
      case Kind::name:
        return text();
      case Kind::texts:
        if (row.key == "brief") return Words{"rules.brief.toml"};
        return Words{text(), text()};
      case Kind::date:
        return "2026-" + month_day(day());
      case Kind::file:
        return folder + (row.key == "species" ? "/good.species.toml" : "/rock.obj");
      case Kind::point:
        return point();
      case Kind::path:
        return Points{point(), point(), point()};
      case Kind::outline: {
        const Vec2 p = point();
        return Points{p, p + Vec2{between(1, 9), 0}, p + Vec2{0, between(1, 9)}};
      }
      case Kind::size:
        return Numbers{number(row.range), number(row.range), number(row.range)};
      case Kind::numbers:
        return Numbers{number(row.range), number(row.range)};
      case Kind::season:
        return Words{month_day(day()), month_day(day())};
      case Kind::edges:
        return Wholes{whole(row.range), whole(row.range)};
      case Kind::choices:
        return Words(row.words.begin(), row.words.begin() + static_cast<std::ptrdiff_t>(below(3)));
      case Kind::pairs:
        return Points{{between(0, 100), between(-11, 90)}, {between(101, 360), between(-11, 90)}};
      default:
        return {};
    }
  }

  void fill_tables(const Row& row, void* thing) {
    met.insert(row.key);
    const int most = row.kind == Kind::tables ? 2 : 1;
    const int count = row.needed ? 1 : static_cast<int>(below(static_cast<std::size_t>(most) + 1));
    for (int i = 0; i < count; ++i) {
      void* child = row.children.add(thing);
      if (row.kind == Kind::figure && chance(0.1)) {
        const Records& records = row.table().records;
        for (int k = 0; k < 2; ++k) fill(row.table(), records.add(child));
        records.use(child);
      } else {
        fill(row.table(), child);
      }
    }
  }

  std::mt19937 random_;
};

void expect_same(const Table& table, void* a, void* b, const std::string& path) {
  for (const Row& row : table.rows) {
    const std::string at = path + "." + row.key;
    ASSERT_EQ(means_something(row, a), means_something(row, b)) << at;
    if (!means_something(row, a)) continue;
    if (!has_table(row)) {
      EXPECT_EQ(value_of(row, a), value_of(row, b)) << at;
      continue;
    }
    ASSERT_EQ(row.children.count(a), row.children.count(b)) << at;
    for (std::size_t i = 0; i < row.children.count(a); ++i) {
      expect_same(row.table(), row.children.at(a, i), row.children.at(b, i), at);
    }
  }
}

// How many of `tries` things were accepted; each of those must come back the same.
int accepted(const Table& table, const std::string& path, int tries, Draw& draw) {
  const TableKeys keys = keys_of(table);
  const Style style{Digits::exact, good_site_file().parent_path()};
  int count = 0;
  for (int i = 0; i < tries && count < 40; ++i) {
    const auto thing = table.make();
    draw.fill(table, thing.get());
    const std::string text = written(table, thing.get(), style);
    const auto again = table.make();
    try {
      const TomlNode tree = parse_toml(text, "drawn");
      read_table(TableCursor(tree, "", "drawn", keys), table, again.get(), {style.folder});
    } catch (const InputError& error) {
      // Only an odd case may refuse: never the shape of a value.
      EXPECT_EQ(std::string(error.found()).find("a slip"), std::string::npos) << text;
      continue;
    }
    ++count;
    expect_same(table, thing.get(), again.get(), path);
    EXPECT_EQ(written(table, again.get(), style), text);
    if (::testing::Test::HasFailure()) break;
  }
  return count;
}

void check_all(const Table& table, const std::string& path, Draw& draw, int& tables) {
  ++tables;
  EXPECT_GE(accepted(table, path, 4000, draw), 20) << path;
  for (const Row& row : table.rows) {
    EXPECT_TRUE(draw.met.count(row.key)) << path << "." << row.key;
    if (has_table(row) && &row.table() != &table) {
      check_all(row.table(), path + "." + row.key, draw, tables);
    }
  }
}

TEST(RoundTrip, EveryTableOfASiteComesBackAsItWasWritten) {
  const unsigned seed = 20260714;
  SCOPED_TRACE(seed);
  Draw draw(seed);
  int tables = 0;
  check_all(site_table(), "site", draw, tables);
  EXPECT_GE(tables, 28);
}

TEST(RoundTrip, EveryTableOfASpeciesComesBackAsItWasWritten) {
  const unsigned seed = 20260715;
  SCOPED_TRACE(seed);
  Draw draw(seed);
  int tables = 0;
  check_all(species_table(), "species", draw, tables);
  EXPECT_GE(tables, 24);
}

TEST(RoundTrip, EveryTableOfABriefFileComesBackAsItWasWritten) {
  const unsigned seed = 20260716;
  SCOPED_TRACE(seed);
  Draw draw(seed);
  int tables = 0;
  check_all(brief_table(), "brief", draw, tables);
  EXPECT_GE(tables, 5);
}

TEST(RoundTrip, DegreesReadBackAsTheSameRadians) {
  std::mt19937 random(7);
  for (int i = 0; i < 20000; ++i) {
    const double tenths = std::uniform_int_distribution<int>(-3600, 3600)(random) / 10.0;
    EXPECT_EQ(degrees_of(tenths * geom::kDegree), tenths);
    const double any = std::uniform_real_distribution<double>(-360, 360)(random) * geom::kDegree;
    EXPECT_EQ(degrees_of(any) * geom::kDegree, any);
  }
}

}  // namespace
}  // namespace hummock::grammar
