// The species file: one row for each ability.
#include <algorithm>
#include <array>

#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kMeasures{"ledge", "bar", "centre of mass", "wall scrambled"};
const Words kEvidence{"trial", "biomechanics", "record", "anecdote", "assumed"};

// What the figure itself is, in the rows below: kind, range, words.
struct Figure {
  Kind kind = Kind::length;
  Range range{};
  Words words{};
  std::size_t least = 0;
  bool jump = false;  // what was measured and on what evidence is asked for
};

template <class T>
Records records_of() {
  using S = Sourced<T>;
  return {[](void* s) -> void* { return &static_cast<S*>(s)->records.emplace_back(); },
          [](void* s) {
            auto& figure = *static_cast<S*>(s);
            auto records = figure.records;
            const auto marked = [](const S& one) { return one.used; };
            const auto count = std::count_if(records.begin(), records.end(), marked);
            if (records.size() == 1) records.front().used = true;
            if (count != 1 && records.size() != 1) return static_cast<std::size_t>(count);
            figure = *std::find_if(records.begin(), records.end(), marked);
            figure.records = std::move(records);
            return std::size_t{1};
          },
          [](const void* s) { return static_cast<const S*>(s)->records.size(); },
          [](void* s, std::size_t i) -> void* { return &static_cast<S*>(s)->records.at(i); }};
}

template <class T>
Table figure_table(const Figure& f, const std::string& meaning) {
  using S = Sourced<T>;
  std::vector<Row> rows{
      {.key = "value",
       .kind = f.kind,
       .meaning = meaning,
       .needed = true,
       .range = f.range,
       .least = f.least,
       .words = f.words,
       .member = of(&S::value)},
      {.key = "source",
       .kind = Kind::text,
       .meaning = "where the value is from; a value without one is refused",
       .needed = true,
       .member = of(&S::source)},
      {.key = "measures",
       .kind = Kind::choice,
       .meaning = "what was measured; published leaps differ in it",
       .needed = f.jump,
       .words = kMeasures,
       .absent = "not said",
       .member = of(&S::measures)},
      {.key = "evidence",
       .kind = Kind::choice,
       .meaning = "on what evidence; published leaps differ in it",
       .needed = f.jump,
       .words = kEvidence,
       .absent = "not said",
       .member = of(&S::evidence)},
      {.key = "used",
       .kind = Kind::flag,
       .meaning = "of several records of one figure: this is the one the answers use",
       .member = of(&S::used)},
  };
  if constexpr (std::is_same_v<T, double> || std::is_same_v<T, std::array<double, 3>>) {
    rows.push_back({.key = "careful",
                    .kind = f.kind,
                    .meaning = "the value at the careful end, where the figure is not sure",
                    .range = f.range,
                    .absent = "not given",
                    .member = of(&S::careful)});
  }
  Table t = table_of<S>(meaning, "an ability", std::move(rows));
  t.records = records_of<T>();
  return t;
}

template <class T, class Owner>
Row figure_row(const std::string& key, const Children& children, const Figure& figure,
               const std::string& meaning) {
  const auto table = std::make_shared<Table>(figure_table<T>(figure, meaning));
  return {.key = key,
          .kind = Kind::figure,
          .meaning = meaning,
          .children = children,
          .table = [table]() -> const Table& { return *table; }};
}
template <class T, class Owner>
Row needed(const std::string& key, Sourced<T> Owner::*member, const Figure& figure,
           const std::string& meaning) {
  Row row = figure_row<T, Owner>(key, in(member), figure, meaning);
  row.needed = true;
  return row;
}
template <class T, class Owner>
Row maybe(const std::string& key, std::optional<Sourced<T>> Owner::*member, const Figure& figure,
          const std::string& meaning, const std::string& absent) {
  Row row = figure_row<T, Owner>(key, in(member), figure, meaning);
  row.absent = absent;
  return row;
}

Figure metres(Range range) {
  return {.kind = Kind::length, .range = range};
}
Figure leap(Range range) {
  return {.kind = Kind::length, .range = range, .jump = true};
}
Figure degrees(Range range) {
  return {.kind = Kind::angle, .range = range};
}
Figure share(const char* of_what) {
  return {.kind = Kind::share, .range = {0.0, 1.0, of_what}};
}
const Figure kFlag{.kind = Kind::flag};
const Figure kBody{.kind = Kind::size, .range = {0.0, 10.0, "m", true}};
const Figure kClimbs{.kind = Kind::choices, .words = {"mesh", "bark", "rock", "wood", "earth"}};
constexpr Range kHead{0.0, 5.0, "m", true};
constexpr Range kHigh{0.01, 15.0, "m"};

void check_crouch(const TableCursor&, const Species& s) {
  if (!s.crouch || s.crouch->value <= s.body.value[2]) return;
  throw InputError(s.crouch->where, plain_number(s.crouch->value),
                   "a crouch no taller than the body (" + plain_number(s.body.value[2]) + " m)");
}

// In the order they are read.
std::vector<Row> ability_rows() {
  return {
      needed("leap_height", &Species::leap_height, leap(kHigh),
             "highest ledge gained from standing on the level"),
      needed("leap_distance", &Species::leap_distance, leap({0.01, 50.0, "m"}),
             "longest level gap"),
      needed("grip", &Species::grip, metres({0.0, 5.0, "m"}),
             "extra reach to hook an edge with the forelimbs"),
      needed("cling_leap", &Species::cling_leap, share("share of its leap"),
             "of its leap it has from a climbed upright face"),
      needed("stand_slope", &Species::stand_slope, degrees({1.0, 89.0, "degrees"}),
             "steepest it stands on"),
      needed("climbs", &Species::climbs, kClimbs, "what it climbs; may be empty"),
      needed("body", &Species::body, kBody, "length, width, height"),
      needed("least_opening", &Species::least_opening, metres(kHead),
             "smallest round hole the head passes"),
      maybe("crouch", &Species::crouch, metres({0.0, 10.0, "m", true}),
            "least clear height it squeezes through or rests in, at most the body's height",
            "`least_opening`"),
      maybe("reach", &Species::reach, metres({0.0, 10.0, "m"}),
            "from a hold or footing to an edge, without leaping", "its body's length"),
      maybe("perch", &Species::perch, metres({0.0, 5.0, "m"}),
            "least width of a crest it can stand on", "0"),
      maybe("climbs_past_upright", &Species::climbs_past_upright, degrees({0.0, 90.0, "degrees"}),
            "how far past upright it still climbs", "30"),
      maybe("hangs", &Species::hangs, kFlag, "hand over hand beneath sheets", "false"),
      maybe("swims", &Species::swims, kFlag, "it crosses deep water", "true"),
      maybe("leap_from_water", &Species::leap_from_water, share("share of its leap"),
            "of its leap it has when afloat", "1 where it swims"),
      needed("dig_depth", &Species::dig_depth, metres({0.0, 20.0, "m"}), "how deep it digs"),
      needed("dig_length", &Species::dig_length, metres({0.0, 200.0, "m of tunnel"}),
             "how long a tunnel it digs"),
      needed("wade_depth", &Species::wade_depth, metres({0.0, 20.0, "m"}),
             "deepest water it walks through"),
      needed("eye_height", &Species::eye_height, metres({0.0, 10.0, "m", true}),
             "of the standing animal"),
      maybe("outdoor_low", &Species::outdoor_low,
            Figure{.kind = Kind::number, .range = {-60.0, 60.0, "°C"}},
            "below it the animal must be able to go in", "none"),
  };
}

}  // namespace

const Table& young_table() {
  static const Table table = table_of<Young>(
      "the young where they differ", "the young",
      {
          maybe("body", &Young::body, kBody, "length, width, height", "as the grown"),
          maybe("least_opening", &Young::least_opening, metres(kHead),
                "smallest round hole the head passes", "as the grown"),
          maybe("leap_height", &Young::leap_height, leap(kHigh),
                "highest ledge gained from standing on the level", "as the grown"),
      });
  return table;
}

const Table& species_table() {
  static const Table table = [] {
    std::vector<Row> rows{
        {.key = "format",
         .kind = Kind::count,
         .meaning = "version of the file format",
         .needed = true,
         .range = {1, 1, ""},
         .member =
             by<Species>([](Species&, const Value&) {}, [](const Species&) { return Value(1); })},
        {.key = "name",
         .kind = Kind::name,
         .meaning = "name of the species",
         .needed = true,
         .member = of(&Species::name)},
    };
    for (Row& row : ability_rows()) rows.push_back(std::move(row));
    const auto crouch =
        std::find_if(rows.begin(), rows.end(), [](const Row& row) { return row.key == "crouch"; });
    crouch->check = check<Species>(check_crouch);
    rows.push_back({.key = "young",
                    .kind = Kind::table,
                    .meaning = young_table().title,
                    .absent = "none",
                    .children = in(&Species::young),
                    .table = young_table});
    rows.push_back({.key = "require",
                    .kind = Kind::tables,
                    .meaning = require_table().title,
                    .absent = "none",
                    .children = in(&Species::requirements),
                    .table = require_table});
    rows.push_back({.key = "either",
                    .kind = Kind::tables,
                    .meaning = either_table().title,
                    .absent = "none",
                    .children = in(&Species::eithers),
                    .table = either_table});
    rows.push_back({.key = "confirm",
                    .kind = Kind::tables,
                    .meaning = confirm_table().title,
                    .absent = "none",
                    .children = in(&Species::confirmations),
                    .table = confirm_table});
    return table_of<Species>("a species", "a species", std::move(rows));
  }();
  return table;
}

}  // namespace hummock::grammar
