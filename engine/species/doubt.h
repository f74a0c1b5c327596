// How sure a figure of the species file is.
#pragma once

#include <string>

namespace hummock {

// Careful ends of figures that nobody has shown and of which the file gives none, as a share.
inline constexpr double kStrongerLeap = 1.5;  // common practice, no source
inline constexpr double kSmallerHead = 0.8;   // common practice, no source

// Nobody has shown it: a figure that is assumed, told, from memory or invented, the young's too.
template <class Figure>
bool unsure(const Figure& figure) {
  const auto says = [&](const char* word) {
    return figure.source.rfind(word, 0) == 0 ||
           figure.source.rfind(std::string("the young: ") + word, 0) == 0;
  };
  return figure.evidence == "assumed" || figure.evidence == "anecdote" || says("from memory") ||
         says("invented");
}

}  // namespace hummock
