#include "question/double_fault.hpp"

#include <algorithm>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/text.hpp"
#include "question/calm.hpp"

namespace tideover::question {

namespace {

base::Problem no_such_fault(const std::vector<Fault>& faults, const std::string& word) {
  std::vector<std::string> known;
  known.reserve(faults.size());
  for (const Fault& fault : faults) known.push_back(fault.words());
  const auto nearest = base::nearest_word(word, known);
  return {{},
          fmt::format("there is no fault `{}`", word),
          nearest ? fmt::format("Did you mean `{}`?", *nearest)
                  : "Expected a fault as the table writes it, as `f_main: bridged`; `tideover "
                    "faults` lists them."};
}

/// A fault that changes the values of its part, and so cannot arise in the middle of a run.
bool alters(const Fault& fault) { return fault.about == Fault::About::Part && !fault.can_arise; }

std::string subjects_in_words(const std::vector<const Fault*>& chosen) {
  std::vector<std::string> words;
  words.reserve(chosen.size());
  for (const Fault* const fault : chosen) words.push_back(fault->words());
  return fmt::format("{}", fmt::join(words, " + "));
}

}  // namespace

base::Result<Fault> together(const std::vector<Fault>& faults,
                             const std::vector<std::string>& words) {
  base::Problems problems;
  std::vector<const Fault*> chosen;
  for (const std::string& word : words) {
    const auto at = std::ranges::find(faults, word, [](const Fault& one) { return one.words(); });
    if (at == faults.end()) {
      problems.push_back(no_such_fault(faults, word));
      continue;
    }
    for (const Fault* const other : chosen) {
      if (other == &*at) {
        problems.push_back({{}, fmt::format("`{}` is named twice", word), "Name it once."});
      } else if (other->subject == at->subject && alters(*other) && alters(*at)) {
        problems.push_back({{},
                            fmt::format("{} cannot fail in both ways at once", at->subject),
                            fmt::format("Name `{}` or `{}`.", other->words(), word)});
      }
    }
    chosen.push_back(&*at);
  }
  if (!problems.empty()) return problems;
  Fault both{.about = Fault::About::Part, .subject = subjects_in_words(chosen)};
  std::vector<std::string> means;
  for (const Fault* const fault : chosen) {
    means.push_back(fmt::format("{}: {}", fault->subject, fault->means));
    both.can_arise = both.can_arise || fault->can_arise;
    const auto& alterations = fault->variation.alterations;
    both.variation.alterations.insert(both.variation.alterations.end(), alterations.begin(),
                                      alterations.end());
  }
  both.means = fmt::format("{}", fmt::join(means, "; "));
  both.variation.words = both.subject;
  return both;
}

base::Result<FaultTable> double_fault(const build::Build& build,
                                      const std::vector<std::string>& words,
                                      base::Progress& progress) {
  const build::Build calm = without_bursts(build);
  const auto fault = together(faults_of(calm), words);
  if (!fault) return fault.problems();
  FaultTable table;
  table.faults = 1;
  table.sound = sound_run(calm, progress);
  table.is_partial = progress.stop_asked();
  if (!table.is_partial) {
    table.entries.push_back(try_fault(calm, table.sound, fault.value(), progress));
  }
  return table;
}

}  // namespace tideover::question
