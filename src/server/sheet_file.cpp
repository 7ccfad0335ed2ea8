#include "server/sheet_file.hpp"

#include <sys/stat.h>

#include <chrono>

#include <fmt/format.h>

#include "base/file.hpp"
#include "base/toml.hpp"

namespace tideover::server {

namespace {

bool is_fresh(std::int64_t changed_ns) {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  const std::int64_t age_ns = std::chrono::nanoseconds(now).count() - changed_ns;
  return age_ns < std::chrono::nanoseconds(std::chrono::seconds(1)).count();
}

}  // namespace

std::string revision_of(std::string_view text) {
  // FNV-1a, 64 bit, of Fowler, Noll and Vo: a mark of change, no protection against anybody.
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  return fmt::format("{:016x}", hash);
}

bool SheetFile::exists() const {
  std::error_code ignored;
  return std::filesystem::exists(file_, ignored);
}

base::Result<SheetState> SheetFile::read() const {
  auto text = base::read_file(file_, base::largest_toml_bytes);
  if (!text) return text.problems();
  std::string revision = revision_of(text.value());
  return SheetState{std::move(text).value(), std::move(revision)};
}

Saving SheetFile::save(std::string_view text, const std::optional<std::string>& base) const {
  Saving saving;
  if (exists()) {
    auto found = read();
    if (!found) {
      saving.problems = found.problems();
      return saving;
    }
    // What stands there already need not be written again.
    saving.is_saved = found.value().text == text;
    if (saving.is_saved) return saving;
    if (base != found.value().revision) {
      saving.found = std::move(found).value();
      return saving;
    }
  } else if (base) {
    return saving;
  }
  saving.problems = base::write_file(file_, text);
  saving.is_saved = saving.problems.empty();
  return saving;
}

std::optional<std::string> SheetWatch::look() {
  const Trace now = trace();
  // The clock of a file system ticks slowly: two changes within a tick look like one.
  if (seen_ == now && !is_fresh(now.changed_ns)) return std::nullopt;
  seen_ = now;
  std::string revision;
  if (now.is_there) {
    const auto state = file_.read();
    if (state) revision = state.value().revision;
  }
  if (told_ == revision) return std::nullopt;
  told_ = revision;
  return revision;
}

SheetWatch::Trace SheetWatch::trace() const {
  struct stat status {};
  if (::stat(file_.path().c_str(), &status) != 0) return {};
  constexpr std::int64_t second_ns = 1000000000;
  return {true, status.st_mtim.tv_sec * second_ns + status.st_mtim.tv_nsec,
          static_cast<std::uint64_t>(status.st_size), status.st_ino};
}

}  // namespace tideover::server
