#include "viewer/draw/shader.h"

#include <epoxy/gl.h>

#include <fstream>
#include <iterator>

#include "engine/base/assets.h"
#include "engine/base/input_error.h"

namespace hummock::viewer {
namespace {

std::string read_text(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw InputError({file.string(), 0, ""}, "no such file", "a shader of the viewer");
  return {std::istreambuf_iterator<char>(in), {}};
}

unsigned compile(GLenum kind, const std::filesystem::path& file) {
  const std::string text = read_text(file);
  const unsigned shader = glCreateShader(kind);
  const char* source = text.c_str();
  glShaderSource(shader, 1, &source, nullptr);
  glCompileShader(shader);
  GLint ok = 0;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &ok);
  if (ok == GL_TRUE) return shader;
  char log[512] = "";
  glGetShaderInfoLog(shader, sizeof log, nullptr, log);
  glDeleteShader(shader);
  throw InputError({file.string(), 0, ""}, std::string("a shader the driver refuses: ") + log,
                   "GLSL 3.30");
}

}  // namespace

Shader::Shader(const std::string& name) {
  const std::filesystem::path folder = assets_folder() / "shaders";
  const unsigned vertex = compile(GL_VERTEX_SHADER, folder / (name + ".vert"));
  const unsigned fragment = compile(GL_FRAGMENT_SHADER, folder / (name + ".frag"));
  program_ = glCreateProgram();
  glAttachShader(program_, vertex);
  glAttachShader(program_, fragment);
  glLinkProgram(program_);
  glDeleteShader(vertex);
  glDeleteShader(fragment);
  GLint ok = 0;
  glGetProgramiv(program_, GL_LINK_STATUS, &ok);
  if (ok == GL_TRUE) return;
  char log[512] = "";
  glGetProgramInfoLog(program_, sizeof log, nullptr, log);
  throw InputError({name, 0, ""}, std::string("shaders that do not link: ") + log, "GLSL 3.30");
}

Shader::~Shader() {
  glDeleteProgram(program_);
}

void Shader::use() const {
  glUseProgram(program_);
}

int Shader::place(const char* name) {
  const auto known = places_.find(std::string_view(name));
  if (known != places_.end()) return known->second;
  return places_[name] = glGetUniformLocation(program_, name);
}

void Shader::set(const char* name, int value) {
  glUniform1i(place(name), value);
}
void Shader::set(const char* name, int x, int y) {
  glUniform2i(place(name), x, y);
}
void Shader::set(const char* name, double value) {
  glUniform1f(place(name), static_cast<float>(value));
}
void Shader::set(const char* name, double x, double y) {
  glUniform2f(place(name), static_cast<float>(x), static_cast<float>(y));
}
void Shader::set(const char* name, geom::Vec3 v) {
  glUniform3f(place(name), static_cast<float>(v.x), static_cast<float>(v.y),
              static_cast<float>(v.z));
}
void Shader::set(const char* name, const std::array<float, 4>& v) {
  glUniform4fv(place(name), 1, v.data());
}
void Shader::set(const char* name, const Matrix4& m) {
  glUniformMatrix4fv(place(name), 1, GL_FALSE, floats(m).data());
}

}  // namespace hummock::viewer
