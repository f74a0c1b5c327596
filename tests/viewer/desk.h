// A designer at the window: a screen that nobody sees, the viewer on it, mouse and keys by xdotool.
// The viewer tells through its state file (--state) where things stand on the screen and what came
// of it. Dear ImGui 1.86 has no input queue: every event waits for some frames before the next.
#pragma once

#include <gtest/gtest.h>
#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <string>

namespace hummock::desk {

namespace fs = std::filesystem;
using nlohmann::json;

std::string read(const fs::path& file);
void rest(int milliseconds);

// A screen that nobody sees.
class Screen {
 public:
  Screen();
  ~Screen();
  Screen(const Screen&) = delete;
  Screen& operator=(const Screen&) = delete;
  const std::string& name() const { return name_; }  // empty: there is no Xvfb

 private:
  pid_t pid_ = -1;
  std::string name_;
};

struct Desk : testing::Test {
  static Screen* screen;
  static void SetUpTestSuite();
  static void TearDownTestSuite();

  fs::path folder;
  fs::path site;
  fs::path state_file;
  std::string original = read(fs::path(HUMMOCK_VIEWER_TEST_DATA) / "small.site.toml");
  pid_t viewer = -1;
  int hints_met = 0;

  Desk();
  ~Desk() override;

  void start();
  // The exit status, or -1 when it had to be killed.
  int stop(int signal);
  int wait_for_end(double seconds);

  json state() const;
  bool wait(const std::function<bool(const json&)>& ready, double seconds = 60.0) const;
  bool wait_current() const;

  void xdo(const std::string& words) const;
  void move(double x, double y) const;
  // Held for some frames: Dear ImGui 1.86 has no queue of events, so a key that is down and up
  // again within one slow frame was never pressed. Shorter than the server's key repeat.
  void key(const std::string& name) const;
  void press(const std::string& widget) const;
  void click() const;
  void drag(double x0, double y0, double x1, double y1, int button = 1) const;
  static std::string met(const json& j, const std::string& what);
  // Hints out of the way, figures there.
  void begin();
};

}  // namespace hummock::desk
