// A linked pair of shaders from the assets folder.
#pragma once

#include <array>
#include <map>
#include <string>

#include "geometry/vec.h"
#include "viewer/draw/matrix.h"

namespace hummock::viewer {

class Shader {
 public:
  // Reads assets/shaders/NAME.vert and NAME.frag. Throws InputError when a file is missing or does
  // not compile, with the driver's first line.
  explicit Shader(const std::string& name);
  ~Shader();
  Shader(const Shader&) = delete;
  Shader& operator=(const Shader&) = delete;

  void use() const;
  void set(const char* name, int value);
  void set(const char* name, int x, int y);
  void set(const char* name, double value);
  void set(const char* name, double x, double y);
  void set(const char* name, geom::Vec3 v);
  void set(const char* name, const std::array<float, 4>& v);
  void set(const char* name, const Matrix4& m);

 private:
  int place(const char* name);
  unsigned program_ = 0;
  std::map<std::string, int, std::less<>> places_;
};

}  // namespace hummock::viewer
