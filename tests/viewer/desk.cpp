#include "tests/viewer/desk.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

namespace hummock::desk {

using Clock = std::chrono::steady_clock;

std::string read(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void rest(int milliseconds) {
#ifdef HUMMOCK_SANITIZED
  constexpr int kSlower = 5;  // its frames
#else
  constexpr int kSlower = 1;
#endif
  std::this_thread::sleep_for(std::chrono::milliseconds(kSlower * milliseconds));
}

Screen::Screen() {
  int ends[2];
  if (::pipe(ends) != 0) return;
  pid_ = ::fork();
  if (pid_ == 0) {
    const std::string fd = std::to_string(ends[1]);
    const int nowhere = ::open("/dev/null", O_WRONLY);
    ::dup2(nowhere, 2);
    ::execlp("Xvfb", "Xvfb", "-displayfd", fd.c_str(), "-screen", "0", "1280x800x24", "-nolisten",
             "tcp", nullptr);
    ::_exit(127);
  }
  ::close(ends[1]);
  char text[16] = "";
  const ssize_t got = ::read(ends[0], text, sizeof text - 1);
  ::close(ends[0]);
  if (got > 0) name_ = ":" + std::to_string(std::atoi(text));
}

Screen::~Screen() {
  if (pid_ > 0) {
    ::kill(pid_, SIGTERM);
    ::waitpid(pid_, nullptr, 0);
  }
}

Screen* Desk::screen = nullptr;

void Desk::SetUpTestSuite() {
  screen = new Screen;
}

void Desk::TearDownTestSuite() {
  delete screen;
  screen = nullptr;
}

Desk::Desk() {
  std::string name = (fs::temp_directory_path() / "hummock_desk_XXXXXX").string();
  folder = ::mkdtemp(name.data());
  site = folder / "small.site.toml";
  state_file = folder / "state.json";
  std::ofstream(site, std::ios::binary) << original;
}

Desk::~Desk() {
  stop(SIGKILL);
  std::error_code ignored;
  fs::remove_all(folder, ignored);
}

void Desk::start() {
  if (screen->name().empty()) GTEST_FAIL() << "no Xvfb: install xvfb and xdotool";
  std::error_code ignored;
  fs::remove(state_file, ignored);
  viewer = ::fork();
  if (viewer == 0) {
    ::setenv("DISPLAY", screen->name().c_str(), 1);
    ::setenv("XDG_CONFIG_HOME", (folder / "config").c_str(), 1);
    ::setenv("XDG_STATE_HOME", (folder / "kept").c_str(), 1);
    ::setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    ::unsetenv("WAYLAND_DISPLAY");
    const std::string state = state_file.string();
    ::execl(HUMMOCK_VIEWER_PROGRAM, HUMMOCK_VIEWER_PROGRAM, site.c_str(), "--state", state.c_str(),
            "--gl-errors", nullptr);
    ::_exit(127);
  }
}

int Desk::stop(int signal) {
  if (viewer <= 0) return -1;
  ::kill(viewer, signal);
  int status = 0;
  ::waitpid(viewer, &status, 0);
  viewer = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

int Desk::wait_for_end(double seconds) {
  const auto begin = Clock::now();
  while (std::chrono::duration<double>(Clock::now() - begin).count() < seconds) {
    int status = 0;
    if (::waitpid(viewer, &status, WNOHANG) == viewer) {
      viewer = -1;
      return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
    rest(50);
  }
  return -1;
}

json Desk::state() const {
  return json::parse(read(state_file), nullptr, false);
}

bool Desk::wait(const std::function<bool(const json&)>& ready, double seconds) const {
  const auto begin = Clock::now();
  while (std::chrono::duration<double>(Clock::now() - begin).count() < seconds) {
    const json j = state();
    if (j.is_object() && ready(j)) return true;
    rest(30);
  }
  return false;
}

bool Desk::wait_current() const {
  return wait([](const json& j) { return j.at("figures_current").get<bool>(); });
}

void Desk::xdo(const std::string& words) const {
  const std::string command =
      "DISPLAY=" + screen->name() + " xdotool " + words + " >/dev/null 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << command;
  rest(260);
}

void Desk::move(double x, double y) const {
  xdo("mousemove " + std::to_string(static_cast<int>(x)) + " " +
      std::to_string(static_cast<int>(y)));
}

void Desk::key(const std::string& name) const {
  const auto plus = name.find('+');
  const std::string modifier = plus == std::string::npos ? "" : name.substr(0, plus);
  const std::string letter = plus == std::string::npos ? name : name.substr(plus + 1);
  if (!modifier.empty()) xdo("keydown " + modifier);
  if (!modifier.empty()) rest(300);
  xdo("keydown " + letter);
  rest(300);
  xdo("keyup " + letter);
  if (!modifier.empty()) xdo("keyup " + modifier);
  rest(100);
}

void Desk::press(const std::string& widget) const {
  const json j = state();
  ASSERT_TRUE(j.at("widgets").contains(widget)) << widget << " is not on the screen";
  const auto at = j["widgets"][widget];
  move(at[0], at[1]);
  click();
}

void Desk::click() const {
  xdo("mousedown 1");
  xdo("mouseup 1");
}

void Desk::drag(double x0, double y0, double x1, double y1, int button) const {
  move(x0, y0);
  xdo("mousedown " + std::to_string(button));
  for (int k = 1; k <= 4; ++k) move(x0 + (x1 - x0) * k / 4.0, y0 + (y1 - y0) * k / 4.0);
  xdo("mouseup " + std::to_string(button));
}

std::string Desk::met(const json& j, const std::string& what) {
  for (const auto& row : j.at("brief"))
    if (row.at("what") == what) return row.at("met");
  return "no such row";
}

void Desk::begin() {
  start();
  ASSERT_TRUE(wait([](const json& j) { return j.at("built").get<bool>(); })) << "never built";
  rest(500);  // the hints find their place over the first frames
  if (state().at("widgets").contains("hints good")) {
    ++hints_met;
    press("hints good");
    ASSERT_TRUE(wait([](const json& j) { return !j.at("widgets").contains("hints good"); }))
        << "the hints do not go";
  }
  ASSERT_TRUE(wait_current()) << "figures never current";
}

}  // namespace hummock::desk
