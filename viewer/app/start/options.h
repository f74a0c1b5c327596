// The words after hummock-view.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace hummock::viewer {

struct Options {
  std::filesystem::path site;
  // A picture instead of a window.
  std::optional<std::filesystem::path> shot;
  int width = 1280;
  int height = 800;
  std::string camera = "whole";  // whole plan south east north west guest animal, or six numbers
  std::string layer;
  std::string date;  // YYYY-MM-DD, empty = 21 June
  double hour = 12.0;
  std::string choose;   // name of an object or a section
  int finding = 0;      // 1 = the first of the list; 0 = none
  int samples = 4;      // of a picture
  double scale = 1.0;   // of text and panels
  bool panels = false;  // the whole window in the picture
  bool plain = false;   // no labels, legend, north
  // For tests.
  std::filesystem::path state;   // the viewer's state as JSON, written whenever it changed
  bool count_gl_errors = false;  // exit 3 when OpenGL complained
  double quit_after = 0.0;       // s; 0 = when the user leaves
};

// Throws InputError for words that mean nothing; prints the help and exits with 0 for --help.
Options read_options(int argc, char** argv);

}  // namespace hummock::viewer
