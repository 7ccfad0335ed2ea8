#include "server/assets.hpp"

#include <algorithm>
#include <array>

#include "base/file.hpp"
#include "server/problem_answer.hpp"

namespace tideover::server {

namespace fs = std::filesystem;

namespace {

constexpr std::uint64_t largest_asset_bytes = 16U << 20U;

struct Type {
  std::string_view ending;
  std::string_view type;
};
constexpr std::array types{
    Type{".html", "text/html; charset=utf-8"},
    Type{".js", "text/javascript; charset=utf-8"},
    Type{".css", "text/css; charset=utf-8"},
    Type{".svg", "image/svg+xml"},
    Type{".png", "image/png"},
    Type{".ico", "image/x-icon"},
    Type{".json", "application/json"},
    Type{".map", "application/json"},
    Type{".txt", "text/plain; charset=utf-8"},
    Type{".md", "text/plain; charset=utf-8"},
    Type{".woff2", "font/woff2"},
    Type{".webmanifest", "application/manifest+json"},
};

std::string_view type_of(std::string_view name) {
  for (const Type& type : types) {
    if (name.ends_with(type.ending)) return type.type;
  }
  return "application/octet-stream";
}

/// "/assets/a.js?v=1" to "assets/a.js".
std::string_view name_of(std::string_view target) {
  target = target.substr(0, target.find_first_of("?#"));
  if (target.starts_with('/')) target.remove_prefix(1);
  return target.empty() ? "index.html" : target;
}

HttpAnswer not_found() { return problem_answer(404, "there is nothing at this address"); }

HttpAnswer with_type(std::string_view name) {
  HttpAnswer answer;
  answer.fields = protective_fields();
  answer.fields.emplace_back("Content-Type", type_of(name));
  answer.fields.emplace_back("Cache-Control", "no-cache");
  return answer;
}

/// The name is only compared with those of files that are there, never opened as it came.
HttpAnswer from_folder(const fs::path& folder, std::string_view name) {
  std::error_code error;
  for (fs::recursive_directory_iterator at(folder, error), end; !error && at != end;
       at.increment(error)) {
    if (fs::relative(at->path(), folder, error).generic_string() != name) continue;
    auto contents = base::read_file(at->path(), largest_asset_bytes);
    if (!contents) break;
    HttpAnswer answer = with_type(name);
    answer.body = std::move(contents).value();
    return answer;
  }
  return not_found();
}

bool is_in(std::optional<std::string_view> list, std::string_view word) {
  return list && list->find(word) != std::string_view::npos;
}

HttpAnswer from_program(const HttpHead& head, std::string_view name) {
  const auto files = embedded_files();
  const auto file = std::ranges::find(files, name, &EmbeddedFile::name);
  if (file == files.end()) return not_found();
  // Asked again each time, by its tag: another build may serve the same address tomorrow.
  HttpAnswer answer = with_type(name);
  const bool is_packed = !file->packed.empty() && is_in(head.only("Accept-Encoding"), "gzip");
  const std::string tag = "\"" + std::string(file->tag) + (is_packed ? "-gz\"" : "\"");
  answer.fields.emplace_back("ETag", tag);
  answer.fields.emplace_back("Vary", "Accept-Encoding");
  if (is_in(head.only("If-None-Match"), tag)) {
    answer.status = 304;
    return answer;
  }
  if (is_packed) answer.fields.emplace_back("Content-Encoding", "gzip");
  answer.fixed = is_packed ? file->packed : file->plain;
  return answer;
}

}  // namespace

bool Assets::has_page() const {
  std::error_code ignored;
  if (folder_) return fs::exists(*folder_ / "index.html", ignored);
  return std::ranges::find(embedded_files(), "index.html", &EmbeddedFile::name) !=
         embedded_files().end();
}

HttpAnswer Assets::answer(const HttpHead& head) const {
  const std::string_view name = name_of(head.target);
  return folder_ ? from_folder(*folder_, name) : from_program(head, name);
}

}  // namespace tideover::server
