#include "cli/completion.hpp"

#include <fmt/format.h>

#include "service/verb.hpp"

namespace tideover::cli {

namespace {

std::string names_in_a_row(const Verbs& verbs) {
  std::string text;
  for (const service::Verb& verb : verbs) text += std::string(verb.name) + " ";
  return text + "completion";
}

/// Of any verb that takes a folder; which verb has which is told by its help.
std::string options_in_a_row(const Verbs& verbs) {
  std::string text = "--json --set --help";
  for (const service::Verb& verb : verbs) {
    for (const service::Option& option : verb.options) text += " " + std::string(option.name);
  }
  return text;
}

std::string for_bash(const Verbs& verbs) {
  return fmt::format(R"(# tideover completion for bash
_tideover() {{
  local word="${{COMP_WORDS[COMP_CWORD]}}"
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "{} --help --version" -- "$word"))
  elif [ "${{COMP_WORDS[1]}}" = completion ]; then
    COMPREPLY=($(compgen -W "bash zsh fish" -- "$word"))
  elif [[ "$word" == -* ]]; then
    COMPREPLY=($(compgen -W "{}" -- "$word"))
  else
    COMPREPLY=($(compgen -d -- "$word") $(compgen -f -X '!*.toml' -- "$word"))
  fi
}}
complete -o filenames -F _tideover tideover
)",
                     names_in_a_row(verbs), options_in_a_row(verbs));
}

/// Words that a shell takes as they are between single quotes.
std::string quoted(std::string_view words) {
  std::string text;
  for (const char letter : words) {
    if (letter == '\'') text += "'\\'";
    text += letter;
  }
  return text;
}

std::string for_zsh(const Verbs& verbs) {
  std::string lines;
  for (const service::Verb& verb : verbs) {
    lines += fmt::format("    '{}:{}'\n", verb.name, quoted(verb.means));
  }
  std::string options;
  for (const service::Verb& verb : verbs) {
    for (const service::Option& option : verb.options) {
      const std::string takes = option.takes.empty() ? "" : fmt::format(":{}:", option.takes);
      options += fmt::format("'{}[{}]{}' ", option.name, quoted(option.means), takes);
    }
  }
  return fmt::format(R"zsh(#compdef tideover
# tideover completion for zsh
_tideover() {{
  local -a verbs
  verbs=(
{}    'completion:print a script that completes these words in a shell'
  )
  if (( CURRENT == 2 )); then
    _describe 'verb' verbs
    _arguments '--help' '--version'
  elif [[ "${{words[2]}}" == completion ]]; then
    _values 'shell' bash zsh fish
  else
    _arguments '--json[answer for programs]' '*--set[a value in place of the sheet]:PATH=VALUE:' {} '--help' '*:folder:_files -g "*.toml(-.)" -/'
  fi
}}
compdef _tideover tideover
)zsh",
                     lines, options);
}

std::string for_fish(const Verbs& verbs) {
  std::string text = "# tideover completion for fish\ncomplete -c tideover -f\n";
  for (const service::Verb& verb : verbs) {
    text += fmt::format("complete -c tideover -n __fish_use_subcommand -a {} -d '{}'\n", verb.name,
                        quoted(verb.means));
    if (!verb.takes_folder) continue;
    text += fmt::format(
        "complete -c tideover -n '__fish_seen_subcommand_from {}' -a "
        "'(__fish_complete_directories)'\n",
        verb.name);
  }
  text += "complete -c tideover -n __fish_use_subcommand -a completion -d 'print such a script'\n";
  text += "complete -c tideover -n '__fish_seen_subcommand_from completion' -a 'bash zsh fish'\n";
  text +=
      "complete -c tideover -n 'not __fish_seen_subcommand_from completion' -l json "
      "-d 'answer for programs'\n";
  text +=
      "complete -c tideover -n 'not __fish_seen_subcommand_from completion' -x -l set "
      "-d 'a value in place of the sheet'\n";
  for (const service::Verb& verb : verbs) {
    for (const service::Option& option : verb.options) {
      text += fmt::format(
          "complete -c tideover -n '__fish_seen_subcommand_from {}'{} -l {} -d '{}'\n", verb.name,
          option.takes.empty() ? "" : " -r", option.name.substr(2), quoted(option.means));
    }
  }
  text += "complete -c tideover -l help -d 'how it is called'\n";
  return text + "complete -c tideover -n __fish_use_subcommand -l version -d 'print the version'\n";
}

}  // namespace

std::vector<std::string> completion_shells() { return {"bash", "zsh", "fish"}; }

std::string completion_script(std::string_view shell, const Verbs& verbs) {
  if (shell == "zsh") return for_zsh(verbs);
  return shell == "fish" ? for_fish(verbs) : for_bash(verbs);
}

}  // namespace tideover::cli
