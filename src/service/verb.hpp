/// The list of what can be asked of the program: both faces answer by it, help and completion are
/// made from it. A new verb is one file in this folder and one line in verbs.cpp.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/progress.hpp"
#include "service/json.hpp"

namespace tideover::service {

/// How an answer ended; the program's exit status.
enum class Status {
  Met = 0,      ///< needs are met and nothing fails
  NotMet = 1,   ///< or a need is not known to be met
  Refused = 2,  ///< the sheet or the call is wrong
  OurFault = 3,
  Stopped = 130,  ///< by the user; what was written is whole and says that it is partial
};

/// An option of one verb, beside those that all have.
struct Option {
  std::string_view name;   ///< "--draws"
  std::string_view takes;  ///< what follows it, in a word: "N"; "FILE...": several; empty: none
  std::string_view means;  ///< one line
};

struct Request {
  std::string verb;
  std::filesystem::path folder = ".";  ///< of a project, or its sheet
  std::string word = {};               ///< of a verb that takes one: a kind, a list
  std::vector<std::string> set = {};   ///< values to use in place of the sheet's: "pack.capacity=3
                                       ///< Ah" (build/parameter.hpp)
  /// The verb's own, by name; of one that takes nothing, "yes" where it is given.
  std::map<std::string, std::vector<std::string>> options = {};
  std::optional<std::string> text = {};  ///< judged in place of the sheet's file, which may be
                                         ///< another or not be there; `folder` stays the project
  /// Called with answers so far, each more exact and in the form of the last; from the thread that
  /// answers. Empty: nobody looks.
  std::function<void(const Json&)> partial = {};

  /// What followed the option, the last time it was given.
  [[nodiscard]] std::optional<std::string> option(const std::string& name) const;
};

/// How a line for people is meant; a terminal may colour it.
enum class Tone { Plain, Strong, Quiet, Good, Warning, Bad };
struct Line {
  Tone tone = Tone::Plain;
  std::string words;
};

struct Reply {
  Status status = Status::Met;
  std::vector<Line> lines;  ///< for people
  Json json;                ///< the same for programs
  std::string document;     ///< if not empty, all there is to print for either
  base::Problems problems;  ///< of the sheet, the call or the files
  std::vector<std::filesystem::path> written;
};

struct Verb {
  std::string_view name;
  std::string_view means;     ///< one line
  std::string_view explains;  ///< a paragraph
  bool takes_folder = true;
  Reply (*answer)(const Request& request, base::Progress& progress);
  std::string_view word = {};        ///< what the word is called, "KIND"; empty: it takes none
  std::string_view word_means = {};  ///< one line
  std::vector<Option> options = {};
};

[[nodiscard]] const std::vector<Verb>& verbs();
[[nodiscard]] const Verb* find_verb(std::string_view name);

/// Carries out a request. A verb that does not exist is a problem with the nearest that does.
[[nodiscard]] Reply answer(const Request& request, base::Progress& progress);

/// Refuses a word that is none of `words`, with the nearest that is.
[[nodiscard]] Reply no_such_word(std::string_view thing, const std::string& word,
                                 const std::vector<std::string>& words);

/// "0.1.0"
[[nodiscard]] std::string version();

}  // namespace tideover::service
