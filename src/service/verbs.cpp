#include "base/text.hpp"
#include "service/bands_verb.hpp"
#include "service/cell_run_verb.hpp"
#include "service/cells_verb.hpp"
#include "service/changeover_verb.hpp"
#include "service/check_verb.hpp"
#include "service/faults_verb.hpp"
#include "service/kinds_verb.hpp"
#include "service/predict_verb.hpp"
#include "service/project.hpp"
#include "service/read_verb.hpp"
#include "service/report_verb.hpp"
#include "service/schema_verb.hpp"
#include "service/shelf_verb.hpp"
#include "service/trace_verb.hpp"
#include "service/values_verb.hpp"
#include "service/verb.hpp"

namespace tideover::service {

const std::vector<Verb>& verbs() {
  static const std::vector<Verb> all{
      predict_verb(), changeover_verb(), check_verb(), bands_verb(), faults_verb(),
      report_verb(),  values_verb(),     trace_verb(), cells_verb(), cell_run_verb(),
      read_verb(),    schema_verb(),     kinds_verb(), shelf_verb(),
  };
  return all;
}

const Verb* find_verb(std::string_view name) {
  for (const Verb& verb : verbs()) {
    if (verb.name == name) return &verb;
  }
  return nullptr;
}

std::optional<std::string> Request::option(const std::string& name) const {
  const auto at = options.find(name);
  if (at == options.end() || at->second.empty()) return std::nullopt;
  return at->second.back();
}

Reply answer(const Request& request, base::Progress& progress) {
  if (const Verb* const verb = find_verb(request.verb)) return verb->answer(request, progress);
  std::vector<std::string> names;
  for (const Verb& verb : verbs()) names.emplace_back(verb.name);
  return no_such_word("verb", request.verb, names);
}

Reply no_such_word(std::string_view thing, const std::string& word,
                   const std::vector<std::string>& words) {
  const auto nearest = base::nearest_word(word, words);
  Reply refused{.status = Status::Refused};
  refused.problems.push_back({{},
                              "there is no " + std::string(thing) + " `" + word + "`",
                              nearest ? "Did you mean `" + *nearest + "`?"
                                      : "There is " + base::quoted_list(words, "and") + "."});
  refused.json =
      Json::Object{{"tideover", version()}, {"problems", problems_json(refused.problems)}};
  return refused;
}

std::string version() { return TIDEOVER_VERSION; }

}  // namespace tideover::service
