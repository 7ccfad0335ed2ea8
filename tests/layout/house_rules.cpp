#include "layout/house_rules.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <optional>
#include <span>
#include <string_view>

namespace tideover::test {
namespace {

namespace fs = std::filesystem;

// The floors of the house. A folder includes folders on lower floors, and itself.
struct Floor {
  std::string_view folder;
  int number;
};

constexpr std::array floors{
    Floor{"base", 0},    Floor{"quantity", 1}, Floor{"numeric", 1},  Floor{"source", 2},
    Floor{"drawing", 2}, Floor{"hybrid", 2},   Floor{"network", 3},  Floor{"part", 4},
    Floor{"shelf", 5},   Floor{"build", 6},    Floor{"run", 7},      Floor{"cell", 7},
    Floor{"box", 7},     Floor{"finding", 8},  Floor{"question", 9}, Floor{"size", 10},
    Floor{"bench", 10},  Floor{"papers", 11},  Floor{"service", 12}, Floor{"cli", 13},
    Floor{"server", 13},
};

// Kinds of part that are built on another kind, and the one list that names every kind.
struct Exception {
  std::string_view from;  // a kind, or a file that lies in part/ itself
  std::string_view to;    // a kind; empty for any
};

constexpr std::array part_exceptions{
    Exception{"charger", "converter"},  // a charger is a converter with a charging law on top
    Exception{"kind.cpp", ""},          // the list of kinds
};

// Headers that cost seconds in every source that includes them, and the sources that may.
constexpr std::array<std::string_view, 1> toml_readers{"base/toml_parse.cpp"};
constexpr std::array<std::string_view, 2> json_writers{"build/schema.cpp", "service/json.cpp"};
constexpr std::array<std::string_view, 1> command_lines{"cli/command_line.cpp"};
constexpr std::array<std::string_view, 1> connections{"server/http_connection.cpp"};
constexpr std::array<std::string_view, 3> doors{
    "server/http_connection.cpp", "server/http_connection.hpp", "server/http_server.cpp"};

struct HeavyRule {
  std::string_view prefix;
  std::span<const std::string_view> allowed;
};

constexpr std::array heavy_rules{
    HeavyRule{"toml++/", toml_readers},
    HeavyRule{"nlohmann/", json_writers},
    HeavyRule{"CLI/", command_lines},
    HeavyRule{"boost/beast", connections},
    HeavyRule{"boost/asio", doors},
    // The reference solver judges ours; a library that leaned on it could not be judged by it.
    HeavyRule{"ida/", {}},
    HeavyRule{"sundials/", {}},
    HeavyRule{"nvector/", {}},
};

// Names that say nothing about what a file or folder is for.
constexpr std::array<std::string_view, 12> empty_names{"util",    "utils",  "utility", "utilities",
                                                       "manager", "helper", "helpers", "common",
                                                       "misc",    "core",   "stuff",   "general"};

struct Limits {
  int advised;
  int allowed;
};
// A header that ends a few lines behind the advice is not torn apart for them.
constexpr Limits header_lines{200, 220};
constexpr Limits source_lines{400, 400};
constexpr Limits test_lines{600, 600};

std::optional<int> floor_of(std::string_view folder) {
  const auto* const found = std::ranges::find(floors, folder, &Floor::folder);
  if (found == floors.end()) return std::nullopt;
  return found->number;
}

std::string_view trimmed_left(std::string_view text) {
  const auto start = text.find_first_not_of(" \t");
  return start == std::string_view::npos ? std::string_view{} : text.substr(start);
}

struct Include {
  std::string_view target;
  bool quoted;
};

std::optional<Include> read_include(std::string_view line) {
  line = trimmed_left(line);
  if (!line.starts_with('#')) return std::nullopt;
  line = trimmed_left(line.substr(1));
  if (!line.starts_with("include")) return std::nullopt;
  line = trimmed_left(line.substr(7));
  if (line.empty() || (line[0] != '"' && line[0] != '<')) return std::nullopt;
  const bool quoted = line[0] == '"';
  const auto end = line.find(quoted ? '"' : '>', 1);
  if (end == std::string_view::npos) return std::nullopt;
  return Include{line.substr(1, end - 1), quoted};
}

// "part/fuse/gates.hpp" is first "part", second "fuse"; second is the file's own name where it
// lies in the first folder itself.
struct Room {
  std::string_view first;
  std::string_view second;
  bool nested;
};

Room room_of(std::string_view path) {
  const auto slash = path.find('/');
  if (slash == std::string_view::npos) return {{}, path, false};
  const std::string_view rest = path.substr(slash + 1);
  const auto next = rest.find('/');
  return {path.substr(0, slash), rest.substr(0, next), next != std::string_view::npos};
}

bool part_may_include(const Room& from, const Room& to) {
  if (!to.nested) return true;
  if (from.nested && from.second == to.second) return true;
  return std::ranges::any_of(part_exceptions, [&](const Exception& exception) {
    return exception.from == from.second && (exception.to.empty() || exception.to == to.second);
  });
}

// What is wrong with one project include, or nothing.
std::optional<std::string> judge_project_include(std::string_view file, std::string_view target) {
  const std::string quoted_target = "\"" + std::string(target) + "\"";
  const Room from = room_of(file);
  const Room to = room_of(target);
  if (target.find("..") != std::string_view::npos || to.first.empty())
    return quoted_target + " is not written from src/";
  const auto from_floor = floor_of(from.first);
  const auto to_floor = floor_of(to.first);
  if (!to_floor) return quoted_target + " names no folder of the house";
  if (!from_floor) return std::nullopt;  // said once, of the folder itself
  if (from.first == to.first) {
    if (from.first != "part" || part_may_include(from, to)) return std::nullopt;
    return std::string(from.first) + "/" + std::string(from.second) + " includes " + quoted_target +
           ", another kind of part";
  }
  if (*to_floor < *from_floor) return std::nullopt;
  return std::string(from.first) + " (floor " + std::to_string(*from_floor) + ") includes " +
         quoted_target + " (floor " + std::to_string(*to_floor) + "), which " +
         (*to_floor > *from_floor ? "climbs" : "goes sideways");
}

std::optional<std::string> judge_foreign_include(std::string_view file, std::string_view target) {
  for (const HeavyRule& rule : heavy_rules) {
    if (!target.starts_with(rule.prefix)) continue;
    if (std::ranges::find(rule.allowed, file) != rule.allowed.end()) return std::nullopt;
    std::string text = "<" + std::string(target) + "> may be included by ";
    if (rule.allowed.empty()) return text + "no source under src/";
    for (const std::string_view& allowed : rule.allowed) {
      if (&allowed != &rule.allowed.front()) text += ", ";
      text += allowed;
    }
    return text + " only";
  }
  return std::nullopt;
}

void inspect_length(const std::string& file, const Limits& limits, int lines, HouseReport& report) {
  if (lines <= limits.advised) return;
  const std::string text = std::to_string(lines) + " lines; at most " +
                           std::to_string(limits.advised) + " are meant, " +
                           std::to_string(limits.allowed) + " allowed";
  (lines > limits.allowed ? report.breaches : report.advice).push_back({file, lines, text});
}

void inspect_file(const fs::path& root, const std::string& file, HouseReport& report) {
  std::ifstream stream(root / file);
  std::string line;
  int number = 0;
  bool guarded = false;
  while (std::getline(stream, line)) {
    ++number;
    if (trimmed_left(line).starts_with("#pragma once")) guarded = true;
    const auto include = read_include(line);
    if (!include) continue;
    auto fault = judge_foreign_include(file, include->target);
    if (!fault && include->quoted) fault = judge_project_include(file, include->target);
    if (fault) report.breaches.push_back({file, number, *fault});
  }
  const bool is_header = file.ends_with(".hpp");
  if (is_header && !guarded) report.breaches.push_back({file, 1, "a header without #pragma once"});
  inspect_length(file, is_header ? header_lines : source_lines, number, report);
}

void inspect_names(const std::string& file, HouseReport& report) {
  for (const fs::path& piece : fs::path(file)) {
    const std::string name = piece.stem().string();
    if (std::ranges::find(empty_names, name) != empty_names.end())
      report.breaches.push_back({file, 1, "'" + name + "' does not say what it is for"});
  }
  const Room room = room_of(file);
  if (room.first.empty())
    report.breaches.push_back({file, 1, "a source belongs into a folder of the house"});
  else if (!floor_of(room.first))
    report.breaches.push_back(
        {file, 1, "'" + std::string(room.first) + "' is no folder of the house"});
}

std::vector<std::string> sources_under(const fs::path& root) {
  std::vector<std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    if (!entry.is_regular_file()) continue;
    const std::string file = fs::relative(entry.path(), root).generic_string();
    if (file.ends_with(".hpp") || file.ends_with(".cpp")) files.push_back(file);
  }
  std::ranges::sort(files);
  return files;
}

}  // namespace

HouseReport inspect_house(const fs::path& root) {
  HouseReport report;
  report.read = sources_under(root);
  for (const std::string& file : report.read) {
    inspect_names(file, report);
    inspect_file(root, file, report);
  }
  return report;
}

HouseReport inspect_test_lengths(const fs::path& root) {
  HouseReport report;
  report.read = sources_under(root);
  for (const std::string& file : report.read) {
    std::ifstream stream(root / file);
    const auto lines = std::count(std::istreambuf_iterator<char>(stream), {}, '\n');
    inspect_length(file, test_lines, static_cast<int>(lines), report);
  }
  return report;
}

std::string to_string(const Breach& breach) {
  return breach.file.generic_string() + ":" + std::to_string(breach.line) + ": " + breach.rule;
}

}  // namespace tideover::test
