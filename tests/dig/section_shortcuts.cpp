// What the search of a section leaves out, against the same without leaving it out.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/dig/section/buried_pieces.h"
#include "engine/dig/section/section_paths.h"
#include "engine/dig/station_tunnels.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock::dig {
namespace {

double between(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

GroundLine rough_ground(std::mt19937_64& random) {
  GroundLine ground;
  for (int k = -20; k <= 20; ++k) ground.push_back({0.15 * k, between(random, -0.1, 0.1)});
  return ground;
}

// A skirt with an apron inwards from somewhere on it, and stray pieces; or a short skirt with an
// apron from its foot that goes down at its inner edge, and shuts nothing off that is under it.
std::vector<Piece> rough_pieces(std::mt19937_64& random, const GroundLine& ground) {
  const double top = height_on(ground, 0.0);
  if (random() % 3 == 0) {
    const Vec2 foot{0.0, top - 0.08}, edge{between(random, 0.3, 1.5), top - 0.12};
    return {{{0.0, top}, foot, kSkirt},
            {foot, edge, kApron},
            {edge, edge - Vec2{0.0, between(random, 0.3, 1.0)}, kApron}};
  }
  const double foot = top - between(random, 0.2, 1.0);
  std::vector<Piece> pieces{{{0.0, top}, {0.0, foot}, kSkirt}};
  const double y = between(random, foot, top);
  pieces.push_back({{0.0, y}, {between(random, 0.1, 1.5), y - 0.05}, kApron});
  for (int k = 0; k < 3; ++k) {
    const Vec2 a{between(random, -1.5, 1.5), between(random, -1.0, -0.1)};
    pieces.push_back({a, a + Vec2{between(random, -0.5, 0.5), between(random, -0.5, 0.5)}, kApron});
  }
  return pieces;
}

TEST(SectionShortcuts, a_start_that_is_shut_off_has_no_way_out_by_the_whole_search) {
  const std::uint64_t seed = 20250311;
  std::mt19937_64 random(seed);
  int open = 0, shut = 0;
  for (int trial = 0; trial < 600; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    VerticalSection section;
    section.ground = rough_ground(random);
    section.pieces = rough_pieces(random, section.ground);
    const SectionPaths paths(section);
    const BuriedGraph& graph = paths.graph();
    const SectionObstacles obstacles(graph);
    const OpenGround inside(graph, OpenGround::Bank::inside);
    const OpenGround outside(graph, OpenGround::Bank::outside);
    const double max_depth = between(random, 0.3, 0.9);
    const double x = between(random, 0.05, 2.5);
    const Vec2 start{x, height_on(section.ground, x) - between(random, 0.02, 0.29)};
    const SearchedGround ground{section.ground, graph, obstacles, inside, outside};
    Tunnel whole = shortest_from_point(ground, {}, start);
    if (whole.depth > max_depth + 1e-9)
      whole = shortest_from_point(ground, lowered(section.ground, max_depth), start);
    const Tunnel tunnel = paths.shortest_from(start, max_depth);
    ASSERT_EQ(tunnel.open, whole.open);
    EXPECT_NEAR(tunnel.length, whole.length, 1e-12);
    open += whole.open ? 1 : 0;
    shut += start.x > paths.joined().to_x && paths.least_depth() > max_depth + 1e-6 ? 1 : 0;
  }
  EXPECT_GT(open, 100);
  EXPECT_GT(shut, 50);
}

// Where the piece is below the ground, at many points.
double length_below(const GroundLine& ground, const Piece& piece) {
  constexpr int kParts = 4000;
  int below = 0;
  for (int k = 0; k < kParts; ++k) {
    const Vec2 p = lerp(piece.a, piece.b, (k + 0.5) / kParts);
    below += p.y < height_on(ground, p.x) ? 1 : 0;
  }
  return geom::distance(piece.a, piece.b) * below / kParts;
}

TEST(SectionShortcuts, of_a_piece_all_is_kept_that_is_below_the_ground_and_no_more) {
  const std::uint64_t seed = 20250312;
  std::mt19937_64 random(seed);
  int whole = 0, cut = 0;
  for (int trial = 0; trial < 500; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const GroundLine ground = rough_ground(random);
    const Vec2 a{between(random, -3.5, 2.0), between(random, -0.3, 0.1)};
    const Piece piece{a, a + Vec2{between(random, 0.01, 1.5), between(random, -0.2, 0.2)}, kApron};
    double kept = 0.0;
    for (const Piece& p : buried_pieces(ground, {piece})) kept += geom::distance(p.a, p.b);
    const double len = geom::distance(piece.a, piece.b);
    EXPECT_NEAR(kept, length_below(ground, piece), 0.01 * len);
    (kept > 0.999 * len ? whole : cut) += 1;
  }
  EXPECT_GT(whole, 100);
  EXPECT_GT(cut, 100);
}

// Aprons of the example reach across the yard beside some stations: their tunnels are longer than
// the section that is looked at is wide.
TEST(SectionShortcuts, no_tunnel_is_lost_where_a_section_is_cut_short) {
  const Model model =
      build_model(read_site(tests::source_dir() + "/examples/north-yard/north-yard.site.toml"));
  const BuriedParts parts(model);
  const auto places = station_places(model, parts, 0.5);
  int compared = 0, wide = 0;
  for (const StationPlace& place : places) {
    const Station station = measure_station(model, parts, place, false);
    if (station.leans || station.closed) continue;
    const Limits limits = limits_at(model, place);
    const double reach = 2.0 * station.least_length_m + 3.0;
    const SectionPaths paths(section_at(model, parts, place, std::min(reach, limits.inside),
                                        std::min(reach, limits.outside)));
    EXPECT_NEAR(paths.shortest().length, station.least_length_m, 1e-9) << station.thing;
    EXPECT_NEAR(paths.least_depth(), station.least_depth_m, 1e-9) << station.thing;
    ++compared;
    wide += station.least_length_m > 11.0 ? 1 : 0;
  }
  EXPECT_GT(compared, 100);
  EXPECT_GT(wide, 3);
}

}  // namespace
}  // namespace hummock::dig
