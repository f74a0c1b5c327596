#include "tests/site/bad_input.h"

#include <gtest/gtest.h>

#include "tests/site/good_site.h"

namespace hummock {

std::optional<InputError> error_of(const std::function<void()>& read) {
  try {
    read();
  } catch (const InputError& error) {
    return error;
  }
  return std::nullopt;
}

void expect_error(const BadInput& bad, const std::string& text,
                  const std::optional<InputError>& error) {
  SCOPED_TRACE(bad.what);
  ASSERT_TRUE(error) << "was let through";
  EXPECT_EQ(error->where().key, bad.key);
  EXPECT_NE(error->found().find(bad.found), std::string::npos) << error->what();
  EXPECT_NE(error->allowed().find(bad.allowed), std::string::npos) << error->what();
  const std::string one_line = error->what();
  EXPECT_EQ(one_line.find('\n'), std::string::npos) << one_line;
  EXPECT_LT(one_line.size(), 600U) << one_line;
  if (*bad.line != '\0') {
    EXPECT_EQ(error->where().line, line_with(text, bad.line)) << one_line;
  }
}

}  // namespace hummock
