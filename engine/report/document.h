// What a report says, apart from how it is set: chapters of blocks, written once and set twice, as
// a page for the browser and as sheets of A4.
//
// Words are plain UTF-8 as the user wrote them; each setter escapes for its own format.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "engine/draw/canvas.h"

namespace hummock::report {

// How something stands. Shown as a sign and a word, never by colour alone.
enum class Mark { none, met, met_if, short_of, not_checked, way_out, look, open, waived };
const char* sign(Mark mark);       // "✓", "✗", "–" …
const char* to_string(Mark mark);  // "met", "met, if", "short", "not checked" …

struct Cell {
  std::string text;
  std::optional<double> number;  // in full for the CSV; the text is rounded
  Mark mark = Mark::none;
};
struct Column {
  std::string title;
  double share = 1.0;  // of the width, against the other columns
  bool right = false;  // set against the right, for figures
};
struct Table {
  std::string file;  // name of its CSV without ending; empty = none
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  std::string note;             // model and units, small below
  std::size_t shown_every = 1;  // set only every n-th row; the CSV has all
};

enum class Tone { lead, body, small };
struct Text {
  std::string text;
  Tone tone = Tone::body;
  bool users_own = false;  // in the user's language and direction; else a sentence of ours
};
struct Bullets {
  std::vector<std::string> lines;
};
// Terms with what they are.
struct Facts {
  std::vector<std::pair<std::string, std::string>> list;
};
struct Card {
  Mark mark = Mark::none;
  std::string text;
  std::string to_do;
  std::string place;
};
struct Cards {
  std::vector<Card> list;
};
struct Picture {
  draw::Figure figure;
};
struct Heading {
  std::string text;
};
// The model one can turn; on paper and without WebGL the still picture stands for it.
struct TurnModel {
  draw::Figure still;
};

using Block = std::variant<Text, Heading, Bullets, Facts, Table, Cards, Picture, TurnModel>;

struct Chapter {
  std::string id;  // for links within the page: letters and dashes
  std::string title;
  std::string question;  // what a reviewer asks; may be empty
  std::vector<Block> blocks;
};

struct Front {
  std::string kind;  // "Enclosure report"
  std::string title;
  std::vector<std::pair<std::string, std::string>> facts;
  std::string verdict;
  Mark mark = Mark::none;
  std::vector<std::pair<Mark, int>> tally;
  std::optional<draw::Figure> picture;
  std::vector<Card> cards;  // the worst first
  std::string more;         // where the rest is
  std::vector<std::string> cautions;
  std::vector<std::string> limits;
};

struct Document {
  Front front;
  std::vector<Chapter> chapters;
  std::string foot;  // one line at the foot of every sheet
};

// Every table that has a file name, in order.
std::vector<const Table*> tables_of(const Document& document);
// Every figure, the front picture first.
std::vector<const draw::Figure*> figures_of(const Document& document);

}  // namespace hummock::report
