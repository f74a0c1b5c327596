// One thing dragged in the window, off-screen: from the proposal to the answer, to the picture's
// triangles, and to the frame drawn with them.
//
//   bench_live_picture SITE [moves]      prints lines: name value, of each move
//
// Seconds of the clock: answer_s as the window says it, built_s from proposing up to the triangles
// of the new picture, frame_s of handing them to the graphics card and drawing them once. Where no
// card is, software draws: its frame_s says nothing of a machine with one.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <thread>

#include "engine/site/read_site.h"
#include "viewer/draw/offscreen_context.h"
#include "viewer/draw/renderer.h"
#include "viewer/work/study.h"

namespace hummock::viewer {
namespace {

using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

void wait(Inbox& inbox, const std::function<bool()>& done) {
  while (!done()) {
    if (!inbox.open()) std::this_thread::sleep_for(std::chrono::microseconds(200));
  }
}

void draw(Renderer& renderer, FrameTarget& target, const Built& built) {
  renderer.set_scene(built.scene, built.model);
  DrawSettings settings;
  frame(settings.camera, {target.width(), target.height()}, built.scene->yard);
  settings.coarse = true;  // as while something is dragged
  renderer.draw(target, settings);
  target.read();
}

void run(const std::string& path, int moves) {
  const OffscreenContext context;
  Renderer renderer;
  FrameTarget target;
  target.resize(1280, 800, 4);
  Inbox inbox;
  Study study(inbox);
  Site site = read_site(path);
  study.show(1, std::make_shared<const Site>(site), {});
  wait(inbox, [&] { return study.figures_current(); });
  draw(renderer, target, *study.built());
  std::optional<Built> built;
  study.on_live_built = [&](const Built& b) { built = b; };
  for (int k = 0; k < moves && !site.objects.empty(); ++k) {
    site.objects[0].at.x += k % 2 == 0 ? 0.15 : -0.15;
    built.reset();
    const auto start = Clock::now();
    study.propose(site, 0);
    wait(inbox, [&] { return built.has_value(); });
    const double made = since(start);
    const auto frame = Clock::now();
    draw(renderer, target, *built);
    std::printf("answer_s %.4f\nbuilt_s %.4f\nframe_s %.4f\ndrawn_s %.4f\n", study.live()->seconds,
                made, since(frame), since(start));
  }
  study.end_proposals();
}

}  // namespace
}  // namespace hummock::viewer

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fprintf(stderr, "bench_live_picture SITE [moves]\n");
    return 2;
  }
  hummock::viewer::run(argv[1], argc > 2 ? std::atoi(argv[2]) : 3);
  return 0;
}
