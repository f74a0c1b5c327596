#include "viewer/app/show/stage.h"

#include <backends/imgui_impl_opengl3.h>
#include <epoxy/gl.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>

#include "viewer/app/show/day.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/keys.h"
#include "viewer/ui/panels.h"

namespace hummock::viewer {
namespace {

constexpr double kRest = 0.18;       // s of stillness before the fine picture
constexpr double kSlow = 0.040;      // s: a picture that takes longer is drawn coarse while moving
constexpr double kLookAtDisk = 1.0;  // s between looks

void look_at_disk(Session& s) {
  if (s.now - s.looked_at_disk < kLookAtDisk) return;
  s.looked_at_disk = s.now;
  if (s.document.look_at_disk() == OnDisk::changed) s.disk_changed = true;
}

// ImGui at a given size without input, drawn into a target of its own.
void draw_overlay(Session& s, const Layout& layout, bool panels) {
  if (panels)
    draw_interface(s, layout);
  else {
    ImGui::GetBackgroundDrawList()->AddImage(
        reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(s.target.texture())),
        layout.scene_at,
        {layout.scene_at.x + layout.scene_size.x, layout.scene_at.y + layout.scene_size.y}, {0, 1},
        {1, 0});
    scene_overlay(s, layout);
  }
}

}  // namespace

bool advance(Session& s, double now) {
  const double seconds = s.now > 0.0 ? std::min(0.25, now - s.now) : 0.0;
  s.now = now;
  if (s.inbox.open()) s.redraw = true;
  const bool flying = fly(s);
  const bool playing = play(s, seconds);
  const bool in_motion = flying || playing || view_in_hand(s) || walking_by_key(s);
  if (in_motion) {
    s.moving = true;
    s.still_since = now;
  } else if (s.moving && now - s.still_since > kRest) {
    s.moving = false;
    s.redraw = true;
  }
  ask_for_layer(s);
  look_at_disk(s);
  return flying || playing || s.moving || walking_by_key(s);
}

void draw_scene(Session& s) {
  if (!s.renderer || s.view.width < 1 || s.view.height < 1) return;
  const int samples = s.moving ? 1 : s.preferences.samples;
  const bool coarse = s.moving && s.fine_seconds > kSlow;
  if (s.target.width() != s.view.width || s.target.height() != s.view.height) s.redraw = true;
  if (!s.redraw && s.drawn_coarse == coarse) return;
  s.target.resize(s.view.width, s.view.height, samples);
  s.draw.coarse = coarse;
  const auto start = std::chrono::steady_clock::now();
  s.renderer->draw(s.target, s.draw);
  if (!coarse) {
    glFinish();
    s.fine_seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  }
  s.drawn_coarse = coarse;
  s.redraw = false;
}

Pixels take_picture(Session& s, int width, int height, bool panels) {
  const View view_before = s.view;
  const bool moving_before = s.moving;
  const ImVec2 size_before = ImGui::GetIO().DisplaySize;
  const ImVec2 scale_before = ImGui::GetIO().DisplayFramebufferScale;
  ImGui::GetIO().DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
  ImGui::GetIO().DisplayFramebufferScale = {1, 1};
  s.moving = false;
  Layout layout;
  layout.screen = ImGui::GetIO().DisplaySize;
  layout.scene_size = layout.screen;
  FrameTarget whole;
  // Twice: ImGui places some things by what it learnt the frame before.
  for (int pass = 0; pass < (panels ? 3 : 1); ++pass) {
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    if (panels) layout = lay_out(s);
    s.view = {static_cast<int>(layout.scene_size.x), static_cast<int>(layout.scene_size.y)};
    s.redraw = true;
    draw_scene(s);
    draw_overlay(s, layout, panels);
    ImGui::Render();
  }
  whole.resize(width, height, 1);
  whole.bind();
  glClearColor(1, 1, 1, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  Pixels out = whole.read();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  ImGui::GetIO().DisplaySize = size_before;
  ImGui::GetIO().DisplayFramebufferScale = scale_before;
  s.view = view_before;
  s.moving = moving_before;
  s.redraw = true;
  return out;
}

}  // namespace hummock::viewer
