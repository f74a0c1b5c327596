// The window itself, driven with mouse and keys by xdotool under Xvfb.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "tests/viewer/desk.h"

namespace hummock::desk {
namespace {

TEST_F(Desk, a_boulder_dragged_to_the_fence_turns_the_finding_short_and_undo_mends_it) {
  begin();
  ASSERT_EQ(met(state(), "leap.margin"), "met");

  // Look round by mouse.
  const json before = state();
  const double x = before["scene"][0].get<double>() + 60.0;
  const double y = before["scene"][1].get<double>() + before["scene"][3].get<double>() - 60.0;
  drag(x, y, x + 80.0, y - 30.0);
  ASSERT_TRUE(wait([&](const json& j) {
    return std::abs(j["camera"]["heading"].get<double>() -
                    before["camera"]["heading"].get<double>()) > 0.1;
  })) << "dragging did not turn the view";

  // The plan, so that pixels are metres.
  key("2");
  ASSERT_TRUE(wait([](const json& j) { return j["camera"]["tilt"].get<double>() > 1.5; }));
  json j = state();
  const auto block = j["objects"][0]["pixel"];
  move(block[0], block[1]);
  click();
  ASSERT_TRUE(wait([](const json& s) { return s["chosen"]["kind"] == "object"; }))
      << "a click did not choose the block";

  // To 0.55 m from the south wall: outline corner 0 is (0, 0), corner 3 is (0, 5).
  j = state();
  const double metre = (j["outline"][0][1].get<double>() - j["outline"][3][1].get<double>()) / 5.0;
  const double to = block[1].get<double>() + (2.5 - 0.55) * metre;
  drag(block[0], block[1], block[0], to);
  ASSERT_TRUE(wait([](const json& s) { return s["dirty"].get<bool>(); })) << "nothing was moved";
  ASSERT_TRUE(wait_current());
  j = state();
  EXPECT_EQ(met(j, "leap.margin"), "short");
  EXPECT_NEAR(j["objects"][0]["at"][1].get<double>(), 0.55, 0.12);
  EXPECT_NE(j["objects"][0]["verdict"], "clear");
  EXPECT_EQ(j["undo"], "move block");

  key("ctrl+s");
  ASSERT_TRUE(wait([](const json& s) { return !s["dirty"].get<bool>(); })) << "not saved";
  const std::string moved = read(site);
  EXPECT_NE(moved, original);
  EXPECT_NE(moved.find("# last words of the file"), std::string::npos);
  EXPECT_NE(moved.find("# moved by the test"), std::string::npos);

  key("ctrl+z");
  ASSERT_TRUE(wait([](const json& s) { return s["dirty"].get<bool>(); }));
  ASSERT_TRUE(wait_current());
  EXPECT_EQ(met(state(), "leap.margin"), "met");
  key("ctrl+s");
  ASSERT_TRUE(wait([](const json& s) { return !s["dirty"].get<bool>(); }));
  EXPECT_EQ(read(site), original) << "undo and save must give the file back byte for byte";

  key("ctrl+q");
  EXPECT_EQ(wait_for_end(10.0), 0) << "OpenGL errors, or no clean end";

  // Again: the same file, clean, the layout remembered, no hints.
  begin();
  EXPECT_FALSE(state()["dirty"].get<bool>());
  EXPECT_EQ(hints_met, 1) << "once seen, hints do not come again";
  key("ctrl+q");
  EXPECT_EQ(wait_for_end(10.0), 0);
}

TEST_F(Desk, killed_while_shaping_loses_only_the_stroke_in_hand) {
  begin();
  key("2");
  ASSERT_TRUE(wait([](const json& s) { return s["camera"]["tilt"].get<double>() > 1.5; }));
  key("g");
  ASSERT_TRUE(wait([](const json& s) { return s["tool"] == "shape"; }));
  json j = state();
  const auto at = [&](double u, double v) {
    const auto& o = j["outline"];
    const double x = o[0][0].get<double>() + u * (o[1][0].get<double>() - o[0][0].get<double>());
    const double y = o[0][1].get<double>() + v * (o[3][1].get<double>() - o[0][1].get<double>());
    return std::pair(x, y);
  };
  const auto [x0, y0] = at(0.25, 0.25);
  const auto [x1, y1] = at(0.45, 0.25);
  drag(x0, y0, x1, y1);
  ASSERT_TRUE(wait([](const json& s) { return s["undo"] == "raise the ground"; }));

  // A second stroke, not let go of.
  const auto [x2, y2] = at(0.7, 0.7);
  move(x2, y2);
  xdo("mousedown 1");
  move(x2 + 30, y2);
  stop(SIGKILL);
  xdo("mouseup 1");
  EXPECT_EQ(read(site), original) << "the site file itself was never touched";

  start();
  ASSERT_TRUE(wait([](const json& s) { return s["question"] == "recovery"; }))
      << "unsaved work is not offered";
  rest(600);
  press("recover");
  ASSERT_TRUE(wait([](const json& s) { return s["dirty"].get<bool>(); }));
  ASSERT_TRUE(wait([](const json& s) { return s["question"] == ""; }));
  rest(600);
  key("ctrl+s");
  ASSERT_TRUE(wait([](const json& s) { return !s["dirty"].get<bool>(); }));
  const std::string now = read(site);
  EXPECT_NE(now.find("kind = \"ridge\""), std::string::npos) << now;
  EXPECT_EQ(now.find("[[ground.form]]"), now.rfind("[[ground.form]]")) << "one stroke, not two";
}

TEST_F(Desk, a_file_changed_by_someone_else_is_asked_about) {
  begin();
  std::ofstream(site, std::ios::app) << "# theirs\n";
  ASSERT_TRUE(wait([](const json& s) { return s["question"] == "disk"; })) << "not noticed";
  rest(600);
  press("take file");
  ASSERT_TRUE(wait([](const json& s) { return s["question"] == "" && !s["dirty"].get<bool>(); }));
  EXPECT_EQ(state()["undo"], "take the changed file");
}

TEST_F(Desk, views_layers_and_the_day_answer_to_mouse_and_keys) {
  begin();
  press("view guest");
  ASSERT_TRUE(wait([](const json& s) { return s["walk_as"] == "guest"; }));
  const json before = state();
  xdo("keydown Up");
  rest(500);
  xdo("keyup Up");
  ASSERT_TRUE(wait([&](const json& s) { return s["camera"] != before["camera"]; }));
  press("view animal");
  ASSERT_TRUE(wait([](const json& s) { return s["walk_as"] == "animal"; }));
  key("1");
  ASSERT_TRUE(wait([](const json& s) { return s["walk_as"] == ""; }));
  press("layers");
  rest(300);
  press("layer demand");
  ASSERT_TRUE(wait([](const json& s) { return s["layer_current"].get<bool>(); }))
      << "the map never came";
  const json j = state();
  const auto from = j["widgets"]["day strip from"];
  const auto to = j["widgets"]["day strip to"];
  move(from[0].get<double>() + 0.25 * (to[0].get<double>() - from[0].get<double>()), from[1]);
  click();
  ASSERT_TRUE(wait([](const json& s) { return std::abs(s["hour"].get<double>() - 6.0) < 0.3; }));
  EXPECT_EQ(state()["gl_errors"], 0);
}

TEST(NoDesk, without_a_display_it_says_so_in_one_line_and_ends_with_2) {
  const std::string command = "env -u DISPLAY -u WAYLAND_DISPLAY " HUMMOCK_VIEWER_PROGRAM
                              " " HUMMOCK_VIEWER_TEST_DATA "/small.site.toml 2>&1";
  FILE* pipe = ::popen(command.c_str(), "r");
  ASSERT_NE(pipe, nullptr);
  std::string said;
  char buffer[256];
  while (std::fgets(buffer, sizeof buffer, pipe) != nullptr) said += buffer;
  const int status = ::pclose(pipe);
  EXPECT_EQ(WEXITSTATUS(status), 2);
  EXPECT_EQ(std::count(said.begin(), said.end(), '\n'), 1) << said;
}

TEST(NoDesk, a_picture_needs_no_display) {
  const fs::path file = fs::temp_directory_path() / "hummock_shot_test.png";
  const std::string command =
      "env -u DISPLAY " HUMMOCK_VIEWER_PROGRAM " " HUMMOCK_VIEWER_TEST_DATA
      "/small.site.toml --size 400x300 --camera plan --layer slope --shot " +
      file.string();
  EXPECT_EQ(WEXITSTATUS(std::system(command.c_str())), 0);
  EXPECT_GT(fs::file_size(file), 5000U);
  fs::remove(file);
}

}  // namespace
}  // namespace hummock::desk
