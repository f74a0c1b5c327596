// A slip in a good file, and the one line that must say what is wrong with it.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "engine/base/input_error.h"

namespace hummock {

struct BadInput {
  const char* what;   // the slip, in words
  const char* from;   // in the good file
  const char* to;     // in its place
  const char* line;   // part of the line that the error must name; "" = no line asked
  const char* key;    // the whole key path
  const char* found;  // parts of the error's text
  const char* allowed;
};

// What `read` refuses, or nothing.
std::optional<InputError> error_of(const std::function<void()>& read);

// `text` is the file with the slip in it.
void expect_error(const BadInput& bad, const std::string& text,
                  const std::optional<InputError>& error);

}  // namespace hummock
