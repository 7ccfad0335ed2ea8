#include "service/findings_json.hpp"

#include "papers/channel_unit.hpp"

namespace tideover::service {

namespace {

Json figure_json(const std::optional<finding::Figure>& figure) {
  if (!figure) return {};
  const papers::ChannelUnit unit =
      papers::unit_of({{}, {}, figure->measure.dimension, figure->measure.is_point});
  return Json::Object{{"value", unit.of_si(figure->value_si)}, {"unit", unit.plain}};
}

Json finding_json(const finding::Found& found) {
  const auto& [rule, finding] = found;
  Json::List unknown;
  for (const std::string& path : finding.unknown) unknown.push_back(path);
  return Json::Object{{"rule", rule->key},
                      {"title", rule->title},
                      {"part", finding.part},
                      {"answer", in_words(finding.answer)},
                      {"is_harm", rule->is_harm},
                      {"measured", figure_json(finding.measured)},
                      {"limit", figure_json(finding.limit)},
                      {"margin", finding.margin ? Json(*finding.margin) : Json()},
                      {"sentence", finding.sentence},
                      {"advice", finding.advice},
                      {"unknown", std::move(unknown)},
                      {"words", rule->words},
                      {"formula", rule->formula},
                      {"source", rule->source},
                      {"caution", rule->caution}};
}

}  // namespace

Json findings_json(std::span<const finding::Found> findings) {
  Json::List list;
  for (const finding::Found& found : findings) list.push_back(finding_json(found));
  return list;
}

}  // namespace tideover::service
