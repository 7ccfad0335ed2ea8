#include "base/text.hpp"
#include "service/predict_verb.hpp"
#include "service/read_verb.hpp"
#include "service/report_verb.hpp"
#include "service/schema_verb.hpp"
#include "service/verb.hpp"

namespace tideover::service {

const std::vector<Verb>& verbs() {
  static const std::vector<Verb> all{
      predict_verb(),
      report_verb(),
      read_verb(),
      schema_verb(),
  };
  return all;
}

const Verb* find_verb(std::string_view name) {
  for (const Verb& verb : verbs()) {
    if (verb.name == name) return &verb;
  }
  return nullptr;
}

Reply answer(const Request& request, base::Progress& progress) {
  if (const Verb* const verb = find_verb(request.verb)) return verb->answer(request, progress);
  std::vector<std::string> names;
  for (const Verb& verb : verbs()) names.emplace_back(verb.name);
  const auto nearest = base::nearest_word(request.verb, names);
  Reply refused{.status = Status::Refused};
  refused.problems.push_back({{},
                              "there is no `" + request.verb + "`",
                              nearest ? "Did you mean `" + *nearest + "`?"
                                      : "There is " + base::quoted_list(names, "and") + "."});
  return refused;
}

std::string version() { return TIDEOVER_VERSION; }

}  // namespace tideover::service
