#include "base/file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <optional>
#include <system_error>
#include <utility>

#include "base/text.hpp"

namespace tideover::base {
namespace {

Problem file_problem(const std::filesystem::path& path, std::string text, std::string remedy) {
  Problem problem{{}, std::move(text), std::move(remedy)};
  problem.place.file = path.string();
  return problem;
}

std::string reason(int error) { return std::generic_category().message(error); }

Problem problem_of_error(const std::filesystem::path& path, const std::string& deed, int error) {
  std::string remedy;
  if (error == ENOENT) remedy = "Check the name and the folder.";
  if (error == EACCES || error == EPERM) remedy = "Check who may read and write here.";
  if (error == ENOSPC || error == EDQUOT) remedy = "Make room on the disk.";
  return file_problem(path, "cannot " + deed + ": " + reason(error), remedy);
}

/// An open file that is closed whatever happens.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }
  /// Closes now; false if the system reports a late write error.
  [[nodiscard]] bool close_now() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

std::string size_text(std::uint64_t bytes) {
  const double mebibytes = static_cast<double>(bytes) / 1048576.0;
  if (mebibytes < 1.0) return std::to_string(bytes) + " bytes";
  return number_text(mebibytes, 3) + " MiB";
}

Problem too_large(const std::filesystem::path& path, const std::string& size, std::uint64_t limit) {
  return file_problem(path, "is " + size + ", larger than the limit of " + size_text(limit),
                      "Check that this is the file you meant.");
}

std::optional<Problem> check_kind(const std::filesystem::path& path, int number,
                                  std::uint64_t limit) {
  struct stat status {};
  if (::fstat(number, &status) != 0) return problem_of_error(path, "look at", errno);
  if (S_ISDIR(status.st_mode)) {
    return file_problem(path, "is a folder, not a file", "Name the file inside it.");
  }
  if (!S_ISREG(status.st_mode)) {
    return file_problem(path, "is not a regular file", "Name an ordinary file.");
  }
  const auto size = static_cast<std::uint64_t>(status.st_size);
  if (size > limit) return too_large(path, size_text(size), limit);
  return std::nullopt;
}

/// 0 or the error number.
int write_all(int number, std::string_view contents) {
  while (!contents.empty()) {
    const ssize_t written = ::write(number, contents.data(), contents.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    contents.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// New files get what the user's mask allows; replaced ones keep their own permissions.
mode_t mode_for(const std::filesystem::path& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) return status.st_mode & 07777U;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666U & ~mask;
}

/// A link is written through: its target is replaced, the link stays.
std::filesystem::path behind_links(const std::filesystem::path& path) {
  std::error_code ignored;
  if (!std::filesystem::is_symlink(path, ignored)) return path;
  std::filesystem::path target = std::filesystem::weakly_canonical(path, ignored);
  return target.empty() ? path : target;
}

/// 0 or the error number.
int flush_folder(const std::filesystem::path& folder) {
  const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (handle.number() < 0) return errno;
  // Some file systems cannot flush a folder and say EINVAL; the rename stands all the same.
  return ::fsync(handle.number()) == 0 || errno == EINVAL ? 0 : errno;
}

}  // namespace

Result<std::string> read_file(const std::filesystem::path& path, std::uint64_t limit_bytes) {
  // Without O_NONBLOCK a named pipe would wait for a writer before its kind could be looked at.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0) return problem_of_error(path, "read", errno);
  if (auto problem = check_kind(path, file.number(), limit_bytes)) return *std::move(problem);
  std::string contents;
  std::array<char, 65536> block{};
  while (true) {
    const ssize_t got = ::read(file.number(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return problem_of_error(path, "read", errno);
    if (got == 0) return contents;
    contents.append(block.data(), static_cast<std::size_t>(got));
    if (contents.size() > limit_bytes) return too_large(path, "growing", limit_bytes);
  }
}

Problems write_file(const std::filesystem::path& path, std::string_view contents) {
  const std::filesystem::path target = behind_links(path);
  const std::filesystem::path folder = target.has_parent_path() ? target.parent_path() : ".";
  std::string pattern = (folder / ("." + target.filename().string() + ".XXXXXX")).string();
  Descriptor file(::mkostemp(pattern.data(), O_CLOEXEC));
  if (file.number() < 0) return {problem_of_error(path, "write", errno)};
  int error = write_all(file.number(), contents);
  if (error == 0 && ::fchmod(file.number(), mode_for(target)) != 0) error = errno;
  if (error == 0 && ::fsync(file.number()) != 0) error = errno;
  if (!file.close_now() && error == 0) error = errno;
  if (error == 0 && std::rename(pattern.c_str(), target.c_str()) != 0) error = errno;
  if (error != 0) {
    ::unlink(pattern.c_str());
    return {problem_of_error(path, "write", error)};
  }
  error = flush_folder(folder);
  if (error != 0) return {problem_of_error(path, "make the new contents last", error)};
  return {};
}

Problems make_folder(const std::filesystem::path& path) {
  std::error_code error;
  std::filesystem::create_directories(path, error);
  if (error) return {problem_of_error(path, "make the folder", error.value())};
  if (!std::filesystem::is_directory(path, error)) {
    return {file_problem(path, "is a file where a folder is needed", "Move it or name another.")};
  }
  return {};
}

}  // namespace tideover::base
