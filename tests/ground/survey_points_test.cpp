// Grounds of scattered points.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "tests/ground/survey_files.h"

namespace hummock {
namespace {

TEST_F(Survey, APlaneOfScatteredPointsComesOutExactly) {
  const auto built = ground::build(on_points(file("p.csv", points_csv(300, plane))), {});
  const geom::Grid& g = built.surveyed.grid;
  for (std::size_t k = 0; k < g.size(); k += 7) {
    const Vec2 p = g.node(static_cast<int>(k) % g.nx, static_cast<int>(k) / g.nx);
    ASSERT_NEAR(built.surveyed.z[k], plane(p.x, p.y), 1e-9);
  }
}

TEST_F(Survey, TheOrderOfThePointsDoesNotMatterEvenOnASquareNet) {
  // Four points of a square lie on one circle: either diagonal is Delaunay.
  std::vector<std::string> lines;
  for (int i = -5; i <= 55; i += 5) {
    for (int j = -5; j <= 45; j += 5) {
      lines.push_back(std::to_string(i) + "," + std::to_string(j) + "," +
                      std::to_string((i * j + i * i) % 7) + "\n");
    }
  }
  std::string forth = "x,y,z\n";
  std::string back = "x,y,z\n";
  for (const auto& l : lines) forth += l;
  for (auto it = lines.rbegin(); it != lines.rend(); ++it) back += *it;
  EXPECT_EQ(ground::build(on_points(file("f.csv", forth)), {}).surveyed.z,
            ground::build(on_points(file("b.csv", back)), {}).surveyed.z);
}

TEST_F(Survey, PointsMayHaveOtherColumnsSemicolonsAndComments) {
  Site site = on_points(
      file("p.csv",
           "# levels of 3 May\r\nname;Y;X;Z\r\na;-5;-5;1\r\nb;45;-5;1\r\n\r\nc;-5;55;2\r\n"
           "d;45;55;2\r\n"));
  site.accept = {"survey-coarse"};  // four points
  const auto built = ground::build(site, {});
  EXPECT_NEAR(geom::height_at(built.surveyed, {25, 20}), 1.5, 1e-9);
}

TEST_F(Survey, PointFilesAreRefusedLineByLine) {
  const auto said = [&](const std::string& text) {
    return refusal(on_points(file("p.csv", text)));
  };
  EXPECT_SAYS(said("x,y,z\n0,0,1\n1,zero,1\n"), "p.csv:3: y: found 'zero'");
  EXPECT_SAYS(said("x,y,z\n0,0,1\n1,2\n"), "p.csv:3: z: found 2 fields");
  EXPECT_SAYS(said("x,y,z\n0,0,nan\n"), "p.csv:2: z: found 'nan'");
  EXPECT_SAYS(said("east,north\n0,0\n"), "p.csv:1: found 'east,north'");
  EXPECT_SAYS(said(""), "an empty file");
  EXPECT_SAYS(said("x,y,z\n0,0,1\n1,1,1\n0,0,2\n"), "p.csv:4: z: found 2 m at a place that line 2");
  EXPECT_SAYS(said("x,y,z\n0,0,1\n50,50,1\n"), "2 points");
  EXPECT_SAYS(said("x,y,z\n0,0,1\n20,20,1\n40,40,1\n"), "all in one line");
  EXPECT_SAYS(said("x,y,z\n0,0,1\n40,0,1\n0,40,1\n"), "without points round the ground at (");
  EXPECT_SAYS(refusal(on_points(folder_ / "none.csv")), "no file");
}

TEST_F(Survey, HeightsNoLandHasAreRefusedUntilAccepted) {
  std::string text = points_csv(300, plane);
  text += "12.5,12.5,-9999\n";
  Site site = on_points(file("p.csv", text));
  EXPECT_SAYS(refusal(site), "p.csv:306: z: found -9999 m");
  EXPECT_SAYS(refusal(site), "accept = [\"heights\"]");
  site.accept = {"heights"};
  EXPECT_EQ(refusal(site), "");
}

TEST_F(Survey, AHoleOrTooFewPointsAreRefusedUntilAccepted) {
  std::string few = "x,y,z\n";
  for (int i = -5; i <= 55; i += 20)
    for (int j = -5; j <= 55; j += 20) few += fmt::format("{},{},0\n", i, j);
  Site site = on_points(file("few.csv", few));
  EXPECT_SAYS(refusal(site), "survey-coarse");
  site.accept = {"survey-coarse"};
  EXPECT_EQ(refusal(site), "");
  std::string ring = "x,y,z\n";  // none within 8 m of the yard's middle
  for (int i = -5; i <= 55; ++i)
    for (int j = -5; j <= 45; ++j)
      if (std::hypot(i - 20.0, j - 17.5) > 8.0) ring += fmt::format("{},{},0\n", i, j);
  Site holed = on_points(file("ring.csv", ring));
  EXPECT_SAYS(refusal(holed), "survey-hole");
  holed.accept = {"survey-hole"};
  EXPECT_EQ(refusal(holed), "");
}

TEST_F(Survey, DetailFinerThanTheCellIsSaidToBeLost) {
  std::string text = points_csv(300, [](double, double) { return 1.0; });
  text += "20.12,17.13,0.7\n20.02,17.13,1\n20.22,17.13,1\n20.12,17.03,1\n20.12,17.23,1\n";
  const auto built = ground::build(on_points(file("p.csv", text)), {});
  ASSERT_EQ(built.notes.size(), 1U);
  EXPECT_SAYS(built.notes[0], "finer than the cell of 0.25 m");
  EXPECT_SAYS(built.notes[0], "(20.12, 17.13)");
}

}  // namespace
}  // namespace hummock
