#include "viewer/app/show/shot.h"

#include <backends/imgui_impl_opengl3.h>
#include <epoxy/gl.h>
#include <imgui.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <thread>

#include "engine/base/input_error.h"
#include "viewer/app/session.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/stage.h"
#include "viewer/app/start/setup.h"
#include "viewer/draw/gl_debug.h"
#include "viewer/draw/offscreen_context.h"
#include "viewer/draw/picture.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

// ImGui without a window, for labels, legend and panels.
struct Paper {
  Paper(int width, int height, double scale) {
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
    ImGui_ImplOpenGL3_Init("#version 330 core");
    set_style(scale);
  }
  ~Paper() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui::DestroyContext();
  }
  Paper(const Paper&) = delete;
  Paper& operator=(const Paper&) = delete;
};

// Lets the workers' news in until `ready`, or until they have nothing left to do.
template <class Ready>
void wait_for(Session& s, double& clock, Ready ready) {
  while (!ready()) {
    const bool busy = s.study.busy();
    clock += 0.5;  // runs ahead, so that nothing rests on a timer
    advance(s, clock);
    if (!busy && !s.study.busy() && ready()) return;
    if (!s.study.trouble().empty()) throw std::runtime_error(s.study.trouble());
    if (!s.study.paint_trouble().empty()) throw std::runtime_error(s.study.paint_trouble());
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
}

}  // namespace

int run_shot(const Options& options) {
  const OffscreenContext context;
  const Paper paper(options.width, options.height, options.scale);
  auto session = std::make_unique<Session>(options.site);
  Session& s = *session;
  s.renderer = std::make_unique<Renderer>();
  s.preferences.samples = options.samples;
  s.preferences.hints_seen = true;
  s.ui_scale = options.scale;
  s.view = {options.width, options.height};
  set_up(s, options);
  begin(s);
  s.offer_recovery = false;
  double clock = 1.0;
  wait_for(s, clock, [&] { return s.shown.model != nullptr; });
  const bool judged = options.panels || options.finding > 0 || !options.choose.empty();
  if (judged)
    wait_for(s, clock, [&] { return s.study.judged() && s.study.judged()->stale.empty(); });
  if (!options.layer.empty()) wait_for(s, clock, [&] { return layer_current(s); });
  wait_for(s, clock, [&] { return !s.study.refining(); });
  if (!judged) s.study.stop_checking();
  if (options.panels)
    wait_for(s, clock, [&] { return s.study.day().has_value() || !s.shown.model->site.place; });
  advance(s, clock + 0.5);
  if (options.panels) {
    // The scene is smaller than the picture: the layout says by how much.
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    const Layout layout = lay_out(s);
    s.view = {static_cast<int>(layout.scene_size.x), static_cast<int>(layout.scene_size.y)};
    ImGui::EndFrame();
  }
  point_camera(s, options);
  if (options.plain && !options.panels) {
    s.redraw = true;
    draw_scene(s);
    save_png(*options.shot, s.target.read());
  } else {
    save_png(*options.shot, take_picture(s, options.width, options.height, options.panels));
  }
  const GlErrors errors = gl_errors();
  session.reset();
  if (errors.count > 0) {
    std::fprintf(stderr, "OpenGL complained %d times, first: %s\n", errors.count,
                 errors.first.c_str());
    return 3;
  }
  return 0;
}

}  // namespace hummock::viewer
