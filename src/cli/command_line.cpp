#include "cli/command_line.hpp"

#include <algorithm>

#include <CLI/CLI.hpp>

#include "base/text.hpp"
#include "cli/completion.hpp"

namespace tideover::cli {

namespace {

constexpr const char* description =
    "Will this small battery-backed DC supply carry its devices through a mains outage, for how\n"
    "long, and what gives first? Answers from one build sheet (sheet.toml).";

constexpr const char* epilogue =
    "Examples:\n"
    "  tideover report examples/tide-hut    the verdict, and papers in examples/tide-hut/out\n"
    "  tideover predict                     the verdict for the project in this folder\n"
    "  tideover predict --json | less       the same for programs\n"
    "  tideover predict --set \"pack.capacity=3 Ah\"   with another value than the sheet's\n"
    "  tideover read sheet.toml             only check the sheet\n"
    "  tideover schema > sheet.schema.json  for editors that complete and check\n"
    "  tideover kinds relay                 terminals and keys of one kind of part\n"
    "  tideover shelf fuse                  part data to take a fuse from\n"
    "\n"
    "FOLDER holds a sheet.toml, or is one; without it, the current folder is meant.\n"
    "\n"
    "Exit status: 0 needs are met and nothing fails; 1 a need is not met or not known to be,\n"
    "or something fails; 2 the sheet or the call is wrong; 3 a fault inside the program;\n"
    "130 interrupted.\n"
    "\n"
    "Work below 60 V DC only. Lithium cells burn: read the cautions in the report.";

/// All words that may follow the program's name.
std::vector<std::string> verb_names(const Verbs& verbs) {
  std::vector<std::string> names;
  for (const service::Verb& verb : verbs) names.emplace_back(verb.name);
  names.emplace_back("completion");
  return names;
}

base::Problem problem(std::string text, std::string remedy) {
  return {{}, std::move(text), std::move(remedy)};
}

std::string nearest(const std::string& word, const std::vector<std::string>& words) {
  const auto found = base::nearest_word(word, words);
  return found ? "Did you mean `" + *found + "`?"
               : "There is " + base::quoted_list(words, "and") + ".";
}

/// A word that no verb is: told before the library does it in its own way.
std::optional<base::Problem> check_first_word(const std::vector<std::string>& words,
                                              const Verbs& verbs) {
  const auto first =
      std::ranges::find_if(words, [](const std::string& word) { return !word.starts_with('-'); });
  if (first == words.end()) return std::nullopt;
  const std::vector<std::string> names = verb_names(verbs);
  if (std::ranges::find(names, *first) != names.end()) return std::nullopt;
  return problem("there is no `" + *first + "`", nearest(*first, names));
}

/// An option that does not exist, likewise.
std::optional<base::Problem> check_options(const std::vector<std::string>& words,
                                           const Verbs& verbs) {
  std::vector<std::string> known{"--help", "--version", "--json", "--set"};
  for (const service::Verb& verb : verbs) {
    for (const service::Option& option : verb.options) known.emplace_back(option.name);
  }
  for (const std::string& typed : words) {
    const std::string word = typed.substr(0, typed.find('='));
    if (word == "--") break;
    if (!word.starts_with("-") || word == "-" || word == "-h") continue;
    if (std::ranges::find(known, word) != known.end()) continue;
    return problem("there is no option `" + word + "`", nearest(word, known));
  }
  return std::nullopt;
}

/// The library's parser set up with our verbs.
class Parser {
 public:
  explicit Parser(const Verbs& verbs) : app_(description, "tideover") {
    app_.footer(epilogue);
    app_.set_version_flag("--version", "tideover " + service::version(), "print the version");
    app_.require_subcommand(1);
    app_.get_formatter()->column_width(34);
    app_.get_formatter()->label("SUBCOMMAND", "VERB");
    app_.get_formatter()->label("Subcommands", "Verbs");
    for (const service::Verb& verb : verbs) add(verb);
    CLI::App* const completion =
        app_.add_subcommand("completion", "print a script that completes these words in a shell");
    completion->add_option("SHELL", call_.text, "bash, zsh or fish")->required();
  }

  base::Result<Call> read(const std::vector<std::string>& words) {
    std::vector<std::string> reversed(words.rbegin(), words.rend());
    try {
      app_.parse(reversed);
    } catch (const CLI::CallForHelp&) {
      return printed(help_of(app_));
    } catch (const CLI::CallForVersion&) {
      return printed("tideover " + service::version() + "\n");
    } catch (const CLI::ParseError& error) {
      return problem(error.what(), "`tideover --help` says how it is called.");
    }
    return call();
  }

 private:
  void add(const service::Verb& verb) {
    CLI::App* const sub = app_.add_subcommand(std::string(verb.name), std::string(verb.means));
    sub->footer(std::string(verb.explains));
    if (verb.takes_folder) {
      sub->add_option("FOLDER", call_.request.folder, "a project's folder, or its sheet.toml");
      sub->add_option("--set", call_.request.set,
                      "a value in place of the sheet's: --set \"pack.capacity=3 Ah\"")
          ->type_name("PATH=VALUE")
          ->allow_extra_args(false);
    }
    if (!verb.word.empty()) {
      sub->add_option(std::string(verb.word), call_.request.word, std::string(verb.word_means));
    }
    for (const service::Option& option : verb.options) {
      const std::string name(option.name);
      if (option.takes.empty()) {
        sub->add_flag_callback(
            name, [this, name] { call_.request.options[name] = {"yes"}; },
            std::string(option.means));
        continue;
      }
      sub->add_option(name, call_.request.options[name], std::string(option.means))
          ->type_name(std::string(option.takes))
          ->allow_extra_args(option.takes.ends_with("..."));
    }
    sub->add_flag("--json", call_.as_json, "answer for programs, as JSON");
  }

  static Call printed(std::string text) {
    Call call{.what = Call::What::Print};
    call.text = std::move(text);
    return call;
  }

  std::string help_of(const CLI::App& app) const {
    for (const CLI::App* sub : app.get_subcommands()) return sub->help("tideover");
    return app.help();
  }

  base::Result<Call> call() {
    const std::string chosen = app_.get_subcommands().front()->get_name();
    if (chosen == "completion") {
      const std::vector<std::string> shells = completion_shells();
      if (std::ranges::find(shells, call_.text) == shells.end()) {
        return problem("there is no completion for `" + call_.text + "`",
                       nearest(call_.text, shells));
      }
      call_.what = Call::What::Completion;
      return call_;
    }
    call_.what = Call::What::Ask;
    call_.request.verb = chosen;
    return call_;
  }

  Call call_;
  CLI::App app_;
};

}  // namespace

base::Result<Call> read_command_line(const std::vector<std::string>& words, const Verbs& verbs) {
  if (words.empty()) {
    return problem("what should be answered?", "Say " + base::quoted_list(verb_names(verbs), "or") +
                                                   "; `tideover --help` tells more.");
  }
  if (auto wrong = check_first_word(words, verbs)) return *wrong;
  if (auto wrong = check_options(words, verbs)) return *wrong;
  return Parser(verbs).read(words);
}

}  // namespace tideover::cli
