// Words that came from a user's file or command line, made fit to be shown.
//
// A terminal obeys control bytes (ESC moves, recolours, retitles), a right-to-left override turns a
// sentence round, a value of 250,000 characters hides the line before it; a drawing library stops
// at a character that no text may hold. What is shown is told as an escape instead: \x1B, \u{202E}.
// Classes by Unicode 15, from memory: C0 and C1 controls, U+007F, bidirectional marks, embeddings,
// overrides and isolates, line and paragraph separators, interlinear marks, tag characters, U+FEFF,
// noncharacters (U+FDD0 to U+FDEF and the last two of each plane); what is no UTF-8 byte by byte.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace hummock {

inline constexpr std::size_t kLongestLine = 300;  // characters, of a line of ours on a terminal

// The character at `at` (its bytes are `at` up to the new `at`); kNoCharacter and one byte when
// there is no UTF-8.
inline constexpr char32_t kNoCharacter = 0xFFFFFFFF;
char32_t next_character(std::string_view text, std::size_t& at);

std::size_t characters_in(std::string_view text);

// Escaped, of any length; a line break is a control byte too.
std::string printable(std::string_view text);

// At most `most` characters (>= 8): what is longer loses its middle, which becomes "…".
std::string shortened(std::string_view text, std::size_t most);

// Both: one line for a terminal.
std::string printable_line(std::string_view text, std::size_t most = kLongestLine);

// For drawings, pages and their metadata: what no XML 1.0 text may hold (controls other than tab
// and line break, noncharacters, broken UTF-8) becomes U+FFFD.
std::string drawable(std::string_view text);

}  // namespace hummock
