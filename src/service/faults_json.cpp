#include "service/faults_json.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "papers/csv_field.hpp"
#include "question/fault_words.hpp"

namespace tideover::service {

using question::ClearingBand;
using question::FaultEffect;
using question::FaultEntry;
using question::FaultTable;
using question::LoadEffect;
using question::Onset;

namespace {

std::string_view name_of(Onset onset) { return onset == Onset::Start ? "start" : "outage"; }

Json seconds(const std::optional<quantity::Second>& time) {
  return time ? Json(time->si()) : Json();
}

Json::Object load_json(const LoadEffect& load) {
  return {{"load", load.load},
          {"is_lost_with_mains", load.is_lost_with_mains},
          {"lost_after_s", seconds(load.lost_after)},
          {"lost_after_when_sound_s", seconds(load.sound_lost_after)},
          {"restarts", load.restarts},
          {"lowest_v", load.lowest.si()},
          {"highest_v", load.highest.si()},
          {"above_its_range_s", load.above.si()}};
}

Json::Object clearing_json(const ClearingBand& band) {
  return {{"part", band.part},
          {"words", band.words},
          {"is_for_good", band.is_for_good},
          {"earliest_s", band.earliest.si()},
          {"latest_s", seconds(band.latest)}};
}

Json::Object effect_json(const FaultEffect& effect) {
  Json::List sentences;
  Json::List loads;
  Json::List clearings;
  for (const std::string& sentence : effect.judgement.sentences) sentences.push_back(sentence);
  for (const LoadEffect& load : effect.loads) loads.push_back(load_json(load));
  for (const ClearingBand& band : effect.clearings) clearings.push_back(clearing_json(band));
  return {{"onset", name_of(effect.onset)},
          {"severity", question::in_words(effect.judgement.severity)},
          {"effects", std::move(sentences)},
          {"loads", std::move(loads)},
          {"clears", std::move(clearings)}};
}

Json::Object entry_json(const FaultEntry& entry) {
  Json::List effects;
  for (const FaultEffect& effect : entry.effects) effects.push_back(effect_json(effect));
  Json::Object json{
      {"subject", entry.fault.subject}, {"mode", entry.fault.mode},
      {"means", entry.fault.means},     {"severity", question::in_words(entry.severity())},
      {"is_hidden", entry.is_hidden},   {"runs", std::move(effects)}};
  if (entry.check) {
    json.emplace_back("cheapest_check",
                      Json::Object{{"effort", question::in_words(entry.check->effort)},
                                   {"cost_s", question::cost_of(entry.check->effort).si()},
                                   {"shows", entry.check->words}});
  }
  return json;
}

}  // namespace

Json::Object faults_json(const FaultTable& table) {
  Json::List entries;
  for (const FaultEntry& entry : table.entries) entries.push_back(entry_json(entry));
  return {{"is_partial", table.is_partial},
          {"faults_in_all", static_cast<double>(table.faults)},
          {"outage_s", table.sound.outage.si()},
          {"ambient_k", table.sound.ambient.si()},
          {"faults", std::move(entries)}};
}

namespace {

/// "sea out with mains", "radio lost after 10800 s", "sea served".
std::string in_words(const LoadEffect& load) {
  std::string words = load.load;
  if (load.is_lost_with_mains) {
    words += " out with mains";
  } else if (load.lost_after) {
    words += fmt::format(" lost after {:.4g} s", load.lost_after->si());
  } else {
    words += " served";
  }
  const double above_s = load.above.si();
  return above_s > 0.0 ? words + fmt::format(", too high for {:.4g} s", above_s) : words;
}

std::string in_words(const ClearingBand& band) {
  const std::string latest =
      band.latest ? fmt::format("{:.4g} s", band.latest->si()) : std::string("never");
  return fmt::format("{} {}: {:.4g} s to {}", band.part, band.words, band.earliest.si(), latest);
}

template <class Each>
std::string joined(const std::vector<Each>& all) {
  std::vector<std::string> words;
  words.reserve(all.size());
  for (const Each& one : all) words.push_back(in_words(one));
  return papers::csv_field(fmt::format("{}", fmt::join(words, "; ")));
}

}  // namespace

std::string faults_csv(const FaultTable& table) {
  std::string csv =
      "subject,mode,means,onset,severity,hidden,cheapest check,shows,effects,devices,clears\r\n";
  for (const FaultEntry& entry : table.entries) {
    const std::string check =
        entry.check ? std::string(question::in_words(entry.check->effort)) : "";
    const std::string shows = entry.check ? entry.check->words : "";
    for (const FaultEffect& effect : entry.effects) {
      csv += fmt::format(
          "{},{},{},{},{},{},{},{},{},{},{}\r\n", papers::csv_field(entry.fault.subject),
          papers::csv_field(entry.fault.mode), papers::csv_field(entry.fault.means),
          name_of(effect.onset),
          papers::csv_field(std::string(question::in_words(effect.judgement.severity))),
          entry.is_hidden ? "yes" : "no", papers::csv_field(check), papers::csv_field(shows),
          papers::csv_field(fmt::format("{}", fmt::join(effect.judgement.sentences, "; "))),
          joined(effect.loads), joined(effect.clearings));
    }
  }
  return csv;
}

}  // namespace tideover::service
