// The site being worked on: its text, every earlier text, and the file it came from.
//
// The document is the site file's text. A change is a new text; undo goes back to the one before,
// without limit. So whatever the engine's edits keep (comments, order, spacing) is kept, and what
// is shown is always what would be saved. Nothing here knows windows or drawing.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace hummock::viewer {

enum class OnDisk { as_we_know_it, changed, gone };
enum class Saved { yes, changed_on_disk };

class Document {
 public:
  // Reads the file. Throws InputError when it cannot be read. The text is not checked here: a file
  // with an error in it can be opened and mended elsewhere.
  explicit Document(std::filesystem::path file);

  const std::filesystem::path& file() const { return file_; }
  const std::string& text() const { return steps_[now_].text; }
  // Different for every text that was ever shown.
  std::uint64_t revision() const { return steps_[now_].revision; }
  bool dirty() const { return text() != disk_text_; }

  // Makes `text` the current one; `what` names the change for undo ("move split boulder"). The same
  // text again is no change. What had been undone is dropped.
  void change(std::string text, std::string what);
  // Two changes with the same non-empty `gesture` in a row count as one (typing, dragging a field).
  void change(std::string text, std::string what, const std::string& gesture);

  bool can_undo() const { return now_ > 0; }
  bool can_redo() const { return now_ + 1 < steps_.size(); }
  std::string undo_name() const { return can_undo() ? steps_[now_].what : ""; }
  std::string redo_name() const { return can_redo() ? steps_[now_ + 1].what : ""; }
  void undo();
  void redo();

  // Compares the file with what was last read or written.
  OnDisk look_at_disk() const;
  // Writes beside and renames. Unless `over_changes`, first looks whether someone else changed the
  // file, and then writes nothing. Throws InputError when the place cannot be written.
  Saved save(bool over_changes = false);
  // A copy under another name; the document stays with its file.
  void save_copy(const std::filesystem::path& to) const;
  // Takes the file's text as a change of its own (undo brings ours back).
  void take_from_disk();
  // The user has seen that the file differs and keeps ours.
  void note_disk();

  // Unsaved work of an earlier run, if it differs from the file.
  std::optional<std::string> recoverable() const;
  // Was that work begun on another text than the file now holds?
  bool recoverable_is_of_another_text() const;
  void take_recovered();
  void forget_recovered();
  // Why unsaved work could not be kept; empty = it is kept.
  const std::string& keep_trouble() const { return keep_trouble_; }

 private:
  struct Step {
    std::string text;
    std::string what;
    std::string gesture;
    std::uint64_t revision;
  };
  void keep();

  std::filesystem::path file_;
  std::string disk_text_;
  std::vector<Step> steps_;
  std::size_t now_ = 0;
  std::uint64_t next_revision_ = 1;
  std::string keep_trouble_;
};

}  // namespace hummock::viewer
