// How sure a figure of the species file is.
#pragma once

#include <algorithm>
#include <cctype>
#include <iterator>
#include <optional>
#include <string>
#include <type_traits>

namespace hummock {

// Careful ends of figures that nobody has shown and of which the file gives none, as a share.
inline constexpr double kStrongerLeap = 1.5;  // common practice, no source
inline constexpr double kSmallerHead = 0.8;   // common practice, no source

// What a source begins with that is none.
inline constexpr const char* kNoSource[] = {"from memory", "invented", "common practice",
                                            "no source",   "assumed",  "a guess",
                                            "guess",       "unknown"};

// A source that shows nothing, whatever its capitals; the young's too.
inline bool shows_nothing(std::string source) {
  const std::string of_young = "the young: ";
  if (source.rfind(of_young, 0) == 0) source.erase(0, of_young.size());
  std::transform(source.begin(), source.end(), source.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return std::any_of(std::begin(kNoSource), std::end(kNoSource),
                     [&](const char* words) { return source.rfind(words, 0) == 0; });
}

// Nobody has shown it: a figure that is assumed or told, or whose source is none.
template <class Figure>
bool unsure(const Figure& figure) {
  return figure.evidence == "assumed" || figure.evidence == "anecdote" ||
         shows_nothing(figure.source);
}

// The value at the careful end, where the file gives one.
template <class Figure>
auto careful_given(const Figure& figure) -> std::optional<std::decay_t<decltype(figure.value)>> {
  if constexpr (requires { figure.careful; }) {
    return figure.careful;
  } else {
    return std::nullopt;
  }
}

// The same on the side on which the animal can more (`more`: of it is beyond): one of the other
// side makes no guess sure, and counts as none given. The used value itself is a careful end.
template <class Figure>
auto careful_on(const Figure& figure, bool more) -> decltype(careful_given(figure)) {
  const auto given = careful_given(figure);
  if (given && (more ? *given < figure.value : *given > figure.value)) return std::nullopt;
  return given;
}

// `end`, or what another record of the figure says beyond it, and beyond the used value where there
// is no end. `more`: of it is beyond.
template <class Figure>
std::optional<double> or_record_beyond(const Figure& figure, std::optional<double> end, bool more) {
  for (const auto& record : figure.records) {
    const double last = end.value_or(figure.value);
    if (more ? record.value > last : record.value < last) end = record.value;
  }
  return end;
}

// The careful end of a figure of which more lets the animal do more, or less does where not `more`:
// the file's, else `unshown` where nobody has shown the used one, or what another record of it says
// beyond. Nothing where the used one is as careful.
template <class Figure>
std::optional<double> careful_end(const Figure& figure, std::optional<double> unshown, bool more) {
  std::optional<double> end = careful_on(figure, more);
  if (!end && unsure(figure)) end = unshown;
  end = or_record_beyond(figure, end, more);
  return end && (more ? *end > figure.value : *end < figure.value) ? end : std::nullopt;
}

// With `share` of the used value where nobody has shown that; less lets it do more below 1.
template <class Figure>
std::optional<double> careful_end(const Figure& figure, double share) {
  return careful_end(figure, share * figure.value, share >= 1.0);
}

}  // namespace hummock
