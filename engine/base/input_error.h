// What is wrong with data a user gave, said in one line.
//
// The only exception type for bad user data; caught once in main and turned into exit status 2.
// A programmer's error is an assertion instead; a machine that gives out is resource_error.h.
#pragma once

#include <stdexcept>
#include <string>

namespace hummock {

// Where in a user's file something was written.
struct Where {
  std::string file;  // as the user named it; empty = the command line
  int line = 0;      // 1-based; 0 = the whole file
  std::string key;   // e.g. "boundary.section[1].height"
};

class InputError : public std::runtime_error {
 public:
  // `found`: what is there; `allowed`: what may be there. Both short, no full stop.
  InputError(Where where, std::string found, std::string allowed);
  const Where& where() const { return where_; }
  const std::string& found() const { return found_; }
  const std::string& allowed() const { return allowed_; }

 private:
  Where where_;
  std::string found_;
  std::string allowed_;
};

// Printable, at most 300 characters: "yard.site.toml:14: roof.height: found -2, allowed …"
std::string one_line(const Where& where, const std::string& found, const std::string& allowed);

}  // namespace hummock
