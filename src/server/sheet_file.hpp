/// The project's sheet on disk, as the page sees it: its text under a revision, saved only over
/// the revision that the page started from.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace tideover::server {

/// The same for the same text; another for any other, but for one chance in 2^64.
[[nodiscard]] std::string revision_of(std::string_view text);

struct SheetState {
  std::string text;
  std::string revision;
};

/// What a save came to. Nothing is written unless the base stood on the disk.
struct Saving {
  bool is_saved = false;
  std::optional<SheetState> found;  ///< what stands there instead; empty: no file
  base::Problems problems;          ///< of the disk
};

class SheetFile {
 public:
  explicit SheetFile(std::filesystem::path file) : file_(std::move(file)) {}

  [[nodiscard]] const std::filesystem::path& path() const { return file_; }
  [[nodiscard]] bool exists() const;
  [[nodiscard]] base::Result<SheetState> read() const;
  /// `base`: the revision that `text` was made from; none for a file that is not there yet. Two
  /// saves at a time must not be made.
  [[nodiscard]] Saving save(std::string_view text, const std::optional<std::string>& base) const;

 private:
  std::filesystem::path file_;
};

/// Notices changes of the file; for one listener.
class SheetWatch {
 public:
  explicit SheetWatch(SheetFile file) : file_(std::move(file)) {}
  /// The revision if it is another than last time, or this is the first look; empty text where
  /// there is no file. Reads it only when its time, size or number changed.
  [[nodiscard]] std::optional<std::string> look();

 private:
  struct Trace {
    bool is_there = false;
    std::int64_t changed_ns = 0;
    std::uint64_t bytes = 0;
    std::uint64_t number = 0;
    bool operator==(const Trace&) const = default;
  };
  [[nodiscard]] Trace trace() const;

  SheetFile file_;
  std::optional<Trace> seen_;
  std::optional<std::string> told_;
};

}  // namespace tideover::server
