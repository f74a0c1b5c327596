#include "viewer/document/document.h"

#include <fstream>
#include <iterator>

#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "viewer/document/recovery.h"

namespace hummock::viewer {
namespace {

namespace fs = std::filesystem;

std::optional<std::string> read_whole(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return std::nullopt;
  std::string text{std::istreambuf_iterator<char>(in), {}};
  if (in.bad()) return std::nullopt;
  return text;
}

}  // namespace

Document::Document(fs::path file) : file_(std::move(file)) {
  std::error_code ignored;
  if (fs::is_directory(file_, ignored))
    throw InputError({file_.string(), 0, ""}, "a folder", "a site file, NAME.site.toml");
  const auto text = read_whole(file_);
  if (!text)
    throw InputError({file_.string(), 0, ""}, "no file that can be read",
                     "a site file, NAME.site.toml");
  disk_text_ = *text;
  steps_.push_back({*text, "", "", next_revision_++});
}

void Document::change(std::string text, std::string what) {
  change(std::move(text), std::move(what), "");
}

void Document::change(std::string text, std::string what, const std::string& gesture) {
  if (text == steps_[now_].text) return;
  steps_.resize(now_ + 1);
  if (!gesture.empty() && now_ > 0 && steps_[now_].gesture == gesture) {
    steps_[now_].text = std::move(text);
    steps_[now_].revision = next_revision_++;
  } else {
    steps_.push_back({std::move(text), std::move(what), gesture, next_revision_++});
    ++now_;
  }
  keep();
}

void Document::undo() {
  if (!can_undo()) return;
  --now_;
  steps_[now_].gesture.clear();
  keep();
}

void Document::redo() {
  if (!can_redo()) return;
  ++now_;
  steps_[now_].gesture.clear();
  keep();
}

void Document::keep() {
  keep_trouble_.clear();
  try {
    if (dirty())
      keep_for_recovery(file_, text(), text_hash(disk_text_));
    else
      forget_recovery(file_);
  } catch (const std::exception& error) {
    keep_trouble_ = error.what();
  }
}

OnDisk Document::look_at_disk() const {
  const auto text = read_whole(file_);
  if (!text) return OnDisk::gone;
  return *text == disk_text_ ? OnDisk::as_we_know_it : OnDisk::changed;
}

Saved Document::save(bool over_changes) {
  if (!over_changes && look_at_disk() == OnDisk::changed) return Saved::changed_on_disk;
  save_bytes(file_, text());
  disk_text_ = text();
  steps_[now_].gesture.clear();
  forget_recovery(file_);
  return Saved::yes;
}

void Document::save_copy(const fs::path& to) const {
  save_bytes(to, text());
}

void Document::take_from_disk() {
  const auto text = read_whole(file_);
  if (!text) return;
  disk_text_ = *text;
  change(*text, "take the changed file");
  keep();
}

void Document::note_disk() {
  if (const auto text = read_whole(file_)) disk_text_ = *text;
  keep();
}

std::optional<std::string> Document::recoverable() const {
  const auto found = find_recovery(file_);
  if (!found || found->text == text()) return std::nullopt;
  return found->text;
}

bool Document::recoverable_is_of_another_text() const {
  const auto found = find_recovery(file_);
  return found && found->base_hash != text_hash(disk_text_);
}

void Document::take_recovered() {
  if (auto text = recoverable()) change(std::move(*text), "take back unsaved work");
}

void Document::forget_recovered() {
  forget_recovery(file_);
}

}  // namespace hummock::viewer
