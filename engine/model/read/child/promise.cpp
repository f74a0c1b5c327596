#include "engine/model/read/child/promise.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>

namespace hummock {
namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\r';
}

// Words of a text with their lines; comments from # to the end of a line are none.
class Words {
 public:
  explicit Words(std::string_view text) : text_(text) {}

  std::string_view next() {
    skip();
    const std::size_t from = at_;
    while (at_ < text_.size() && !is_blank(text_[at_]) && text_[at_] != '\n' && text_[at_] != '#')
      ++at_;
    return text_.substr(from, at_ - from);
  }
  void skip_line() {
    while (at_ < text_.size() && text_[at_] != '\n') ++at_;
  }
  int line() const { return line_; }

 private:
  void skip() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '#') {
        skip_line();
        continue;
      }
      if (c == '\n') ++line_;
      if (c != '\n' && !is_blank(c)) return;
      ++at_;
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1;
};

template <class Number>
std::optional<Number> number_in(std::string_view word) {
  Number value{};
  if (word.starts_with('+')) word.remove_prefix(1);
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (error != std::errc() || end != word.data() + word.size() || word.empty()) return std::nullopt;
  return value;
}

std::string odd_word(std::string_view word, int line, const std::string& wanted) {
  const std::string found =
      word.empty() ? "it ends" : "'" + std::string(word.substr(0, 20)) + "' stands";
  return fmt::format("in its line {} {} where {} should be", line, found, wanted);
}

// ---- OFF

std::string check_off_vertices(Words& words, std::uint64_t count) {
  for (std::uint64_t v = 0; v < count; ++v) {
    for (int axis = 0; axis < 3; ++axis) {
      const auto word = words.next();
      const auto value = number_in<double>(word);
      if (!value || !std::isfinite(*value)) return odd_word(word, words.line(), "a coordinate");
    }
    words.skip_line();  // a colour may follow
  }
  return {};
}

std::string check_off_faces(Words& words, std::uint64_t count, std::uint64_t vertices,
                            std::uint64_t& faces) {
  for (std::uint64_t f = 0; f < count; ++f) {
    auto word = words.next();
    const auto corners = number_in<std::uint64_t>(word);
    if (!corners || *corners == 0) return odd_word(word, words.line(), "a count of corners");
    for (std::uint64_t k = 0; k < *corners; ++k) {
      word = words.next();
      const auto corner = number_in<std::uint64_t>(word);
      if (!corner || *corner >= vertices) {
        return odd_word(word, words.line(), fmt::format("a corner from 0 to {}", vertices - 1));
      }
    }
    if (*corners >= 3) ++faces;
    words.skip_line();
  }
  return {};
}

Promise of_off(std::string_view bytes) {
  Promise out;
  Words words(bytes);
  auto word = words.next();
  if (word != "OFF") return out;  // its kin with colours, normals or four axes
  std::optional<std::uint64_t> counts[2];
  for (auto& count : counts) {
    word = words.next();
    count = number_in<std::uint64_t>(word);
    if (!count) out.broken = odd_word(word, words.line(), "a count");
    if (!count) return out;
  }
  words.skip_line();
  out.vertices = *counts[0];
  out.broken = check_off_vertices(words, *counts[0]);
  std::uint64_t faces = 0;
  if (out.broken.empty()) out.broken = check_off_faces(words, *counts[1], *counts[0], faces);
  if (out.broken.empty()) out.faces = faces;
  return out;
}

// ---- PLY

// Lines that hold something.
std::uint64_t rows_in(std::string_view text) {
  std::uint64_t rows = 0;
  bool empty = true;
  for (const char c : text) {
    if (c == '\n') empty = true;
    if (c == '\n' || is_blank(c) || !empty) continue;
    empty = false;
    ++rows;
  }
  return rows;
}

Promise of_ply(std::string_view bytes) {
  Promise out;
  std::uint64_t rows = 0;
  const std::size_t end = bytes.find("end_header");
  if (end == std::string_view::npos) {
    out.broken = "its header has no end";
    return out;
  }
  const std::string_view head = bytes.substr(0, end);
  for (std::size_t at = head.find("element "); at != std::string_view::npos;
       at = head.find("element ", at + 1)) {
    Words words(head.substr(at));
    words.next();
    const auto name = words.next();
    const auto word = words.next();
    const auto count = number_in<std::uint64_t>(word);
    if (!count)
      out.broken = "'" + std::string(word.substr(0, 20)) + "' stands where a count should";
    if (name == "vertex") out.vertices = count;
    if (name == "face") out.faces = count;
    rows += count.value_or(0);
  }
  const std::size_t body = bytes.find('\n', end);
  if (out.broken.empty() && head.find("format ascii") != std::string_view::npos) {
    const std::uint64_t there = rows_in(body == std::string_view::npos ? "" : bytes.substr(body));
    if (there < rows) out.broken = fmt::format("it promises {} rows and has {}", rows, there);
  }
  return out;
}

// ---- STL

Promise of_stl(std::string_view bytes) {
  Promise out;
  if (bytes.size() >= 84) {
    std::uint32_t count = 0;
    std::memcpy(&count, bytes.data() + 80, sizeof count);
    const std::uint64_t needs = 84 + 50ULL * count;
    if (needs == bytes.size() || !bytes.starts_with("solid")) {
      out.faces = count;
      if (needs > bytes.size()) {
        out.broken = fmt::format("it promises {} triangles and has room for {}", count,
                                 (bytes.size() - 84) / 50);
      }
      return out;
    }
  }
  std::uint64_t facets = 0;
  Words words(bytes);
  for (auto word = words.next(); !word.empty(); word = words.next()) {
    if (word == "facet") ++facets;
  }
  out.faces = facets;
  return out;
}

// ---- OBJ

Promise of_obj(std::string_view bytes) {
  std::uint64_t faces = 0;
  for (std::size_t at = 0; at < bytes.size();) {
    std::size_t end = bytes.find('\n', at);
    if (end == std::string_view::npos) end = bytes.size();
    std::string_view line = bytes.substr(at, end - at);
    while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
    if (line.size() > 1 && line[0] == 'f' && is_blank(line[1])) ++faces;
    at = end + 1;
  }
  Promise out;
  out.faces = faces;
  return out;
}

// ---- glTF

using nlohmann::json;

std::string_view json_chunk(std::string_view bytes) {
  if (!bytes.starts_with("glTF")) return bytes;
  if (bytes.size() < 20) return {};
  std::uint32_t length = 0;
  std::memcpy(&length, bytes.data() + 12, sizeof length);
  return bytes.substr(20, length);
}

std::uint64_t primitive_faces(const json& all, const json& primitive) {
  const int mode = primitive.value("mode", 4);
  if (mode < 4) return 0;
  const json& attributes = primitive.at("attributes");
  if (!attributes.contains("POSITION")) return 0;
  const auto accessor = primitive.contains("indices")
                            ? primitive.at("indices").get<std::size_t>()
                            : attributes.at("POSITION").get<std::size_t>();
  const auto corners = all.at("accessors").at(accessor).at("count").get<std::uint64_t>();
  if (mode == 4) return corners / 3;
  return corners < 3 ? 0 : corners - 2;
}

Promise of_gltf(std::string_view bytes) {
  Promise out;
  const std::string_view text = json_chunk(bytes);
  const json all = json::parse(text.begin(), text.end(), nullptr, false);
  if (all.is_discarded() || !all.is_object()) return out;  // the reader says what is wrong
  try {
    std::uint64_t faces = 0;
    for (const json& mesh : all.value("meshes", json::array())) {
      for (const json& primitive : mesh.at("primitives")) faces += primitive_faces(all, primitive);
    }
    out.faces = faces;
  } catch (const json::exception&) {
    out.broken = "its meshes, primitives or accessors are not as glTF 2.0 has them";
  }
  return out;
}

}  // namespace

Promise promise_of(std::string_view bytes, std::string_view ending) {
  if (ending == ".off") return of_off(bytes);
  if (ending == ".ply") return of_ply(bytes);
  if (ending == ".stl") return of_stl(bytes);
  if (ending == ".obj") return of_obj(bytes);
  if (ending == ".gltf" || ending == ".glb") return of_gltf(bytes);
  return {};
}

}  // namespace hummock
