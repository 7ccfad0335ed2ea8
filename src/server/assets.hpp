/// The page's files: carried by the program, or for development read from a folder.
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "server/http.hpp"

namespace tideover::server {

/// One file of the bundle as the build put it into the program.
struct EmbeddedFile {
  std::string_view name;  ///< "assets/page.js"
  std::string_view plain;
  std::string_view packed;  ///< by gzip; empty where that is not smaller
  std::string_view tag;     ///< changes with the contents
};
/// Empty in a program that was built without the page. Defined by the build (cmake/Web.cmake).
[[nodiscard]] std::span<const EmbeddedFile> embedded_files();

class Assets {
 public:
  /// Those in the program, or where `folder` is named all files under it as they are at each
  /// request.
  explicit Assets(std::optional<std::filesystem::path> folder) : folder_(std::move(folder)) {}

  [[nodiscard]] bool has_page() const;
  /// For GET and HEAD of anything but /api; 404 unless the target names a file of the bundle
  /// exactly. "/" is index.html.
  [[nodiscard]] HttpAnswer answer(const HttpHead& head) const;

 private:
  std::optional<std::filesystem::path> folder_;
};

}  // namespace tideover::server
