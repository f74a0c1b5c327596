#include "viewer/app/window.h"

// epoxy before GLFW: it declares OpenGL itself.
#include <epoxy/gl.h>
// then
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>

#include "engine/base/atomic_file.h"
#include "viewer/app/session.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/stage.h"
#include "viewer/app/start/setup.h"
#include "viewer/app/start/state_file.h"
#include "viewer/draw/gl_debug.h"
#include "viewer/draw/picture.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

constexpr int kSettle = 3;  // frames after an event: ImGui answers over two

class Window {
 public:
  Window(const Preferences& p, bool debug) {
    glfwSetErrorCallback([](int, const char* words) { last_error() = words; });
    if (glfwInit() == GLFW_FALSE) fail();
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_DEBUG_CONTEXT, debug ? GLFW_TRUE : GLFW_FALSE);
    glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_FALSE);
    glfwWindowHint(GLFW_MAXIMIZED, p.maximised ? GLFW_TRUE : GLFW_FALSE);
    window_ = glfwCreateWindow(p.window_width, p.window_height, "Hummock", nullptr, nullptr);
    if (window_ == nullptr) fail();
    if (p.window_x >= 0 && p.window_y >= 0 && !p.maximised)
      glfwSetWindowPos(window_, p.window_x, p.window_y);
    glfwMakeContextCurrent(window_);
    glfwSwapInterval(1);
    if (debug) watch_gl_errors();
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;  // we remember the layout ourselves
    ImGui_ImplGlfw_InitForOpenGL(window_, true);
    ImGui_ImplOpenGL3_Init("#version 330 core");
  }
  ~Window() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
    glfwDestroyWindow(window_);
    glfwTerminate();
  }
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  GLFWwindow* get() const { return window_; }

  // Size of text and panels: the screen's density where the window counts in pixels.
  double scale() const {
    float x = 1.0F;
    float y = 1.0F;
    glfwGetWindowContentScale(window_, &x, &y);
    int width = 1;
    int height = 1;
    int pixels_wide = 1;
    int pixels_high = 1;
    glfwGetWindowSize(window_, &width, &height);
    glfwGetFramebufferSize(window_, &pixels_wide, &pixels_high);
    const double units = static_cast<double>(std::max(width, 1)) / std::max(pixels_wide, 1);
    return std::clamp(x * units, 0.5, 4.0);
  }

 private:
  static std::string& last_error() {
    static std::string words;
    return words;
  }
  [[noreturn]] static void fail() {
    const std::string words = last_error();
    glfwTerminate();
    throw std::runtime_error("no window can be opened here (" + words +
                             "); --shot makes a picture without one");
  }
  GLFWwindow* window_ = nullptr;
};

void fit_text(Session& s, const Window& window, double wanted) {
  const double scale = window.scale() * wanted * s.preferences.text_scale;
  if (std::abs(scale - s.ui_scale) < 1e-6 && s.frame > 0) return;
  s.ui_scale = scale;
  set_style(scale);
  if (s.frame == 0) return;  // the backend makes the first one itself
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

void remember_window(Session& s, GLFWwindow* window) {
  auto& p = s.preferences;
  p.maximised = glfwGetWindowAttrib(window, GLFW_MAXIMIZED) == GLFW_TRUE;
  if (!p.maximised) {
    glfwGetWindowSize(window, &p.window_width, &p.window_height);
    glfwGetWindowPos(window, &p.window_x, &p.window_y);
  }
  write_preferences(preferences_file(), p);
}

// One frame of panels and scene.
void draw_frame(Session& s, GLFWwindow* window) {
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplGlfw_NewFrame();
  ImGui::NewFrame();
  const Layout layout = lay_out(s);
  const ImVec2 density = ImGui::GetIO().DisplayFramebufferScale;
  s.view = {std::max(1, static_cast<int>(layout.scene_size.x * density.x)),
            std::max(1, static_cast<int>(layout.scene_size.y * density.y))};
  draw_scene(s);
  draw_interface(s, layout);
  ImGui::Render();
  int width = 1;
  int height = 1;
  glfwGetFramebufferSize(window, &width, &height);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glViewport(0, 0, width, height);
  glClearColor(0.96F, 0.95F, 0.92F, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  glfwSwapBuffers(window);
  ++s.frame;
}

void write_state(const Session& s, const Options& options, std::string& before) {
  if (options.state.empty()) return;
  const Layout layout = lay_out(s);
  const double k = layout.scene_size.x / std::max(1, s.view.width);
  std::string now = state_json(s, layout.scene_at.x, layout.scene_at.y, k);
  if (now == before) return;
  before = std::move(now);
  save_bytes(options.state, before);
}

void save_wanted_picture(Session& s) {
  if (!s.save_picture_now) return;
  try {
    save_png(*s.save_picture_now,
             take_picture(s, s.picture_size[0], s.picture_size[1], s.picture_panels));
    tell(s, "Picture saved: " + *s.save_picture_now);
  } catch (const std::exception& error) {
    tell(s, std::string("Not saved: ") + error.what());
  }
  s.save_picture_now.reset();
}

void name_window(const Session& s, GLFWwindow* window, std::string& before) {
  const std::string title =
      (s.document.dirty() ? "• " : "") + s.document.file().filename().string() + " – Hummock";
  if (title == before) return;
  before = title;
  glfwSetWindowTitle(window, title.c_str());
}

// How long to sleep if nothing happens.
double patience(const Session& s, bool animated, int settle) {
  if (animated || settle > 0) return 0.0;
  if (s.study.busy() || s.study.answering()) return 0.08;
  return 0.5;
}

void loop(Session& s, const Window& window, const Options& options) {
  int settle = kSettle;
  std::string title;
  std::string state;
  while (!s.quit) {
    if (glfwWindowShouldClose(window.get()) == GLFW_TRUE) {
      glfwSetWindowShouldClose(window.get(), GLFW_FALSE);
      s.ask_quit = true;
    }
    const double start = glfwGetTime();
    const bool animated = advance(s, start);
    fit_text(s, window, options.scale);
    name_window(s, window.get(), title);
    draw_frame(s, window.get());
    save_wanted_picture(s);
    write_state(s, options, state);
    if (options.quit_after > 0.0 && start > options.quit_after) break;
    settle = std::max(0, settle - 1);
    const double wait = patience(s, animated, settle);
    const double before = glfwGetTime();
    if (wait > 0.0)
      glfwWaitEventsTimeout(wait);
    else
      glfwPollEvents();
    // Woken early: something happened, and ImGui wants a few frames to answer.
    if (wait > 0.0 && glfwGetTime() - before < wait * 0.95) settle = kSettle;
  }
}

}  // namespace

int run_window(const Options& options) {
  auto session = std::make_unique<Session>(options.site);
  Session& s = *session;
  s.preferences = read_preferences(preferences_file());
  const Window window(s.preferences, options.count_gl_errors);
  s.renderer = std::make_unique<Renderer>();
  s.inbox.on_news([] { glfwPostEmptyEvent(); });
  set_up(s, options);
  begin(s);
  loop(s, window, options);
  remember_window(s, window.get());
  const GlErrors errors = gl_errors();
  session.reset();  // its textures go while the context is still there
  if (options.count_gl_errors && errors.count > 0) {
    std::fprintf(stderr, "OpenGL complained %d times, first: %s\n", errors.count,
                 errors.first.c_str());
    return 3;
  }
  return 0;
}

}  // namespace hummock::viewer
