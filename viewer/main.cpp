// hummock-view: exit status 0, 2 for bad input or no screen, 3 for OpenGL errors when they count.
#include <cstdio>
#include <exception>

#include "viewer/app/show/shot.h"
#include "viewer/app/start/options.h"
#include "viewer/app/window.h"

int main(int argc, char** argv) {
  using namespace hummock::viewer;
  try {
    const Options options = read_options(argc, argv);
    return options.shot ? run_shot(options) : run_window(options);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "hummock-view: %s\n", error.what());
    return 2;
  }
}
