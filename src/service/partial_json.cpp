#include <cmath>
#include <limits>

#include "service/bands_json.hpp"

namespace tideover::service {

using numeric::Buckets;
using question::BandKey;
using question::BandTally;
using question::NeedKey;

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

long whole(std::uint64_t count) { return static_cast<long>(count); }

Json optional_json(const std::optional<double>& value_si) {
  return value_si ? Json(*value_si) : Json();
}

Json number_json(const BandKey& key, const Buckets& buckets) {
  Json::List counts;
  for (const Buckets::Bucket& bucket : buckets.buckets()) {
    counts.push_back(Json::List{long{bucket.key}, whole(bucket.count)});
  }
  return Json::Object{{"sort", static_cast<int>(key.sort)},
                      {"under", key.under},
                      {"part", key.part},
                      {"name", key.name},
                      {"lowest_si", buckets.lowest()},
                      {"highest_si", buckets.highest()},
                      {"buckets", std::move(counts)}};
}

Json need_json(const NeedKey& key, const std::array<BandTally::Met, question::replicates>& met) {
  Json::List counts;
  for (const BandTally::Met& one : met) counts.push_back(Json::List{whole(one.met), whole(one.of)});
  return Json::Object{
      {"need", static_cast<int>(key.need)}, {"under", key.under}, {"met", std::move(counts)}};
}

Json pilot_json(std::uint64_t draw, const BandTally::Pilot& pilot) {
  return Json::List{whole(draw), optional_json(pilot.carried_si[0]),
                    optional_json(pilot.carried_si[1]), optional_json(pilot.recharge_si[0]),
                    optional_json(pilot.recharge_si[1])};
}

Json::Object tally_json(const BandTally& tally) {
  Json::List numbers;
  for (const auto& [key, buckets] : tally.numbers()) numbers.push_back(number_json(key, buckets));
  Json::List needs;
  for (const auto& [key, met] : tally.needs()) needs.push_back(need_json(key, met));
  Json::List broken;
  for (const auto& [rule, count] : tally.broken()) {
    broken.push_back(Json::List{rule.rule, rule.part, whole(count)});
  }
  Json::List pilots;
  for (const auto& [draw, pilot] : tally.pilots()) pilots.push_back(pilot_json(draw, pilot));
  const auto& counts = tally.counts();
  return {{"draws", whole(counts.draws)}, {"contradicting", whole(counts.contradicting)},
          {"stuck", whole(counts.stuck)}, {"numbers", std::move(numbers)},
          {"needs", std::move(needs)},    {"broken", std::move(broken)},
          {"pilots", std::move(pilots)}};
}

/// Reads a tally; anything amiss is remembered and told once at the end.
class TallyReader {
 public:
  [[nodiscard]] bool is_sound() const { return is_sound_; }

  std::uint64_t count(const Json* json, std::uint64_t most = std::uint64_t{1} << 62U) {
    const auto number = json == nullptr ? std::nullopt : json->number();
    const bool fits = number && *number >= 0.0 && *number == std::floor(*number) &&
                      *number <= static_cast<double>(most);
    if (!fits) is_sound_ = false;
    return fits ? static_cast<std::uint64_t>(*number) : 0;
  }

  std::string text(const Json* json) {
    const std::string* const found = json == nullptr ? nullptr : json->text();
    if (found == nullptr) is_sound_ = false;
    return found == nullptr ? std::string() : *found;
  }

  const Json::List& list(const Json* json) {
    static const Json::List none;
    const Json::List* const found = json == nullptr ? nullptr : json->list();
    if (found == nullptr) is_sound_ = false;
    return found == nullptr ? none : *found;
  }

  BandTally tally(const Json& json) {
    const BandTally::Counts counts{.draws = count(json.find("draws")),
                                   .contradicting = count(json.find("contradicting")),
                                   .stuck = count(json.find("stuck"))};
    BandTally::Numbers numbers;
    for (const Json& one : list(json.find("numbers"))) read_number(one, numbers);
    BandTally::Needs needs;
    for (const Json& one : list(json.find("needs"))) read_need(one, needs);
    BandTally::Broken broken;
    for (const Json& one : list(json.find("broken"))) read_broken(one, broken);
    BandTally::Pilots pilots;
    for (const Json& one : list(json.find("pilots"))) read_pilot(one, pilots);
    if (!is_sound_) return {};
    return {counts, std::move(numbers), std::move(needs), std::move(broken), std::move(pilots)};
  }

 private:
  void read_number(const Json& json, BandTally::Numbers& numbers) {
    const BandKey key{static_cast<BandKey::Sort>(
                          count(json.find("sort"), static_cast<int>(BandKey::Sort::Extreme))),
                      static_cast<int>(count(json.find("under"), 1)), text(json.find("part")),
                      text(json.find("name"))};
    std::vector<Buckets::Bucket> buckets;
    for (const Json& pair : list(json.find("buckets"))) {
      const Json::List& both = list(&pair);
      const auto bucket = both.size() == 2 ? both[0].number() : std::nullopt;
      if (!bucket || std::abs(*bucket) > std::numeric_limits<std::int32_t>::max()) {
        is_sound_ = false;
        return;
      }
      buckets.push_back({static_cast<std::int32_t>(*bucket), count(&both[1])});
    }
    const double lowest_si = extreme(json.find("lowest_si"));
    const double highest_si = extreme(json.find("highest_si"));
    is_sound_ = is_sound_ && Buckets::is_sound(buckets, lowest_si, highest_si);
    if (is_sound_) numbers.emplace(key, Buckets(std::move(buckets), lowest_si, highest_si));
  }

  /// What is not finite has no number in JSON: never.
  double extreme(const Json* json) {
    if (json == nullptr) is_sound_ = false;
    return json == nullptr ? never : json->number().value_or(never);
  }

  void read_need(const Json& json, BandTally::Needs& needs) {
    const NeedKey key{
        static_cast<NeedKey::Need>(count(json.find("need"), static_cast<int>(NeedKey::Need::All))),
        static_cast<int>(count(json.find("under"), 1))};
    const Json::List& counts = list(json.find("met"));
    is_sound_ = is_sound_ && counts.size() == question::replicates;
    std::uint64_t draws = 0;
    for (std::size_t r = 0; is_sound_ && r < counts.size(); ++r) {
      const Json::List& both = list(&counts[r]);
      is_sound_ = is_sound_ && both.size() == 2;
      if (!is_sound_) return;
      needs[key][r] = {.met = count(&both[0]), .of = count(&both[1])};
      is_sound_ = is_sound_ && needs[key][r].met <= needs[key][r].of;
      draws += needs[key][r].of;
    }
    is_sound_ = is_sound_ && draws > 0;
  }

  void read_broken(const Json& json, BandTally::Broken& broken) {
    const Json::List& three = list(&json);
    is_sound_ = is_sound_ && three.size() == 3;
    if (is_sound_) broken[{text(&three[0]), text(&three[1])}] = count(&three[2]);
  }

  void read_pilot(const Json& json, BandTally::Pilots& pilots) {
    const Json::List& five = list(&json);
    is_sound_ = is_sound_ && five.size() == 5;
    if (!is_sound_) return;
    pilots[count(&five[0], question::pilot_draws - 1)] = {
        .carried_si = {five[1].number(), five[2].number()},
        .recharge_si = {five[3].number(), five[4].number()}};
  }

  bool is_sound_ = true;
};

}  // namespace

Json::Object partial_json(const PartialTally& partial) {
  return {{"share", whole(partial.share)}, {"of_shares", whole(partial.of_shares)},
          {"seed", whole(partial.seed)},   {"draws_meant", whole(partial.draws_meant)},
          {"drawn", partial.values},       {"tally", tally_json(partial.tally)}};
}

base::Result<PartialTally> read_partial(const Json& json) {
  TallyReader reader;
  PartialTally partial{.seed = reader.count(json.find("seed")),
                       .draws_meant = reader.count(json.find("draws_meant")),
                       .share = reader.count(json.find("share")),
                       .of_shares = reader.count(json.find("of_shares")),
                       .values = {},
                       .tally = {}};
  const Json* const values = json.find("drawn");
  const Json* const tally = json.find("tally");
  if (values != nullptr && tally != nullptr) {
    partial.values = *values;
    partial.tally = reader.tally(*tally);
  }
  const bool is_whole = values != nullptr && tally != nullptr && reader.is_sound() &&
                        partial.share >= 1 && partial.share <= partial.of_shares;
  if (!is_whole) {
    return base::Problem{{},
                         "this is not what `tideover bands --share i/n --json` writes",
                         "Write the share again."};
  }
  return partial;
}

}  // namespace tideover::service
