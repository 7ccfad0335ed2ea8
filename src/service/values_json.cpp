#include "service/values_json.hpp"

namespace tideover::service {

namespace {

Json::List texts_json(const std::vector<std::string>& texts) {
  Json::List list;
  list.reserve(texts.size());
  for (const std::string& text : texts) list.emplace_back(text);
  return list;
}

Json::Object value_json(const build::SheetValue& value) {
  Json::Object json{{"key", value.key},
                    {"path", value.path},
                    {"text", value.text},
                    {"takes", in_words(value.takes)},
                    {"means", value.means},
                    {"stands", in_words(value.stands)},
                    {"default", value.stands == build::SheetValue::Stands::Default},
                    {"line", value.line}};
  const auto add = [&json](const char* key, const std::string& text) {
    if (!text.empty()) json.emplace_back(key, text);
  };
  add("unit", value.unit);
  add("tolerance", value.tolerance);
  add("origin", value.origin);
  add("source", value.source);
  add("least", value.least);
  add("most", value.most);
  if (value.is_required) json.emplace_back("must_be_said", true);
  if (!value.words.empty()) json.emplace_back("words", texts_json(value.words));
  if (!value.choices.texts.empty()) {
    json.emplace_back("step", Json::Object{{"choices", texts_json(value.choices.texts)},
                                           {"at", static_cast<long>(value.choices.at)}});
  }
  return json;
}

Json::List list_json(const std::vector<build::SheetValue>& values) {
  Json::List list;
  list.reserve(values.size());
  for (const build::SheetValue& value : values) list.emplace_back(value_json(value));
  return list;
}

Json::Object item_json(const build::SheetItem& item) {
  Json::Object json{{"name", item.name}, {"kind", item.kind}, {"title", item.means}};
  if (!item.note.empty()) json.emplace_back("note", item.note);
  json.emplace_back("line", item.line);
  json.emplace_back("values", list_json(item.values));
  return json;
}

std::string written(const build::TerminalName& name) { return name.part + "." + name.terminal; }

Json::List terminals_json(const build::Build& build, const part::Part& part) {
  Json::List list;
  for (const part::Terminal& terminal : part.terminals()) {
    const build::TerminalName name{part.name, terminal.name};
    Json::List leads;
    for (const build::Lead& lead : build.leads) {
      if (lead.from == name || lead.to == name) leads.emplace_back(lead.name);
    }
    list.push_back(Json::Object{{"name", terminal.name},
                                {"means", terminal.means},
                                {"must_be_wired", terminal.must_be_wired},
                                {"leads", std::move(leads)}});
  }
  return list;
}

Json::List joins_json(const build::Build& build) {
  Json::List list;
  for (const build::Join& join : build.joins) {
    Json::List terminals;
    for (const build::TerminalName& name : join.terminals) terminals.emplace_back(written(name));
    list.push_back(Json::Object{{"name", join.name}, {"terminals", std::move(terminals)}});
  }
  return list;
}

Json::List timelines_json(const std::vector<build::SheetTimeline>& timelines) {
  Json::List list;
  for (const build::SheetTimeline& timeline : timelines) {
    Json::List stretches;
    for (const build::SheetItem& stretch : timeline.stretches) {
      stretches.push_back(Json::Object{
          {"words", stretch.means}, {"line", stretch.line}, {"values", list_json(stretch.values)}});
    }
    list.push_back(Json::Object{{"name", timeline.item.name},
                                {"line", timeline.item.line},
                                {"values", list_json(timeline.item.values)},
                                {"stretches", std::move(stretches)}});
  }
  return list;
}

}  // namespace

Json::Object values_json(const build::Build& build, const build::SheetValues& values) {
  Json::List parts;
  for (std::size_t k = 0; k < values.parts.size(); ++k) {
    Json::Object part = item_json(values.parts[k]);
    part.emplace_back("terminals", terminals_json(build, *build.parts[k]));
    parts.emplace_back(std::move(part));
  }
  Json::List leads;
  for (std::size_t k = 0; k < values.leads.size(); ++k) {
    Json::Object lead = item_json(values.leads[k]);
    lead.emplace_back("terminals",
                      Json::List{written(build.leads[k].from), written(build.leads[k].to)});
    leads.emplace_back(std::move(lead));
  }
  return {{"head", list_json(values.head)},  {"needs", list_json(values.needs)},
          {"parts", std::move(parts)},       {"leads", std::move(leads)},
          {"joins", joins_json(build)},      {"timelines", timelines_json(values.timelines)},
          {"start", list_json(values.start)}};
}

}  // namespace tideover::service
