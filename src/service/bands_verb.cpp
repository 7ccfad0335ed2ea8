#include "service/bands_verb.hpp"

#include <charconv>
#include <set>

#include <fmt/format.h>

#include "base/file.hpp"
#include "service/bands_json.hpp"
#include "service/bands_lines.hpp"
#include "service/project.hpp"

namespace tideover::service {

using question::Bands;
using question::BandSettings;

namespace {

/// Points that can be told apart in every replicate, and numbers that JSON carries exactly.
constexpr std::uint64_t most_draws_asked = 1'000'000'000;
constexpr std::uint64_t highest_seed = 1'000'000'000'000;
constexpr std::uint64_t largest_file_bytes = 256U << 20U;

/// Reads options; what is wrong with them is collected.
class Options {
 public:
  explicit Options(const Request& request) : request_(request) {}

  std::optional<std::uint64_t> number(const std::string& name, std::uint64_t least,
                                      std::uint64_t most) {
    const auto text = request_.option(name);
    if (!text) return std::nullopt;
    const auto read = whole(*text);
    if (read && *read >= least && *read <= most) return read;
    problems.push_back({{},
                        fmt::format("{} is {}", name, *text),
                        fmt::format("Expected a whole number from {} to {}.", least, most)});
    return std::nullopt;
  }

  /// "2/8".
  void share(BandSettings& settings) {
    const auto text = request_.option("--share");
    if (!text) return;
    const auto slash = text->find('/');
    const auto share = whole(text->substr(0, slash));
    const auto of = slash == std::string::npos ? std::nullopt : whole(text->substr(slash + 1));
    if (share && of && *share >= 1 && *share <= *of && *of <= most_draws_asked) {
      settings.share = *share;
      settings.of_shares = *of;
      return;
    }
    problems.push_back({{}, "--share is " + *text, "Expected the share and their number: 2/8."});
  }

  base::Problems problems;

 private:
  static std::optional<std::uint64_t> whole(std::string_view text) {
    std::uint64_t number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return number;
  }

  const Request& request_;
};

base::Result<BandSettings> settings_of(const Request& request) {
  Options options(request);
  BandSettings settings;
  settings.draws = options.number("--draws", 1, most_draws_asked);
  settings.width_draws = options.number("--width-draws", 0, most_draws_asked);
  settings.seed = options.number("--seed", 0, highest_seed).value_or(settings.seed);
  options.share(settings);
  if (!options.problems.empty()) return options.problems;
  return settings;
}

Reply partial_reply(const build::Build& build, const Bands& bands, const BandSettings& settings) {
  Reply reply{.status = bands.is_partial() ? Status::Stopped : Status::Met};
  reply.lines = bands_lines(bands);
  reply.lines.push_back({});
  reply.lines.push_back(
      {Tone::Quiet, fmt::format("Share {} of {} alone; with --json it is written for --merge.",
                                settings.share, settings.of_shares)});
  Json::Object json = preamble("bands", build);
  const PartialTally partial{.seed = settings.seed,
                             .draws_meant = bands.draws_meant,
                             .share = settings.share,
                             .of_shares = settings.of_shares,
                             .values = drawn_values_json(bands.inputs),
                             .tally = bands.tally};
  json.emplace_back("is_partial", true);
  for (auto& entry : partial_json(partial)) json.push_back(std::move(entry));
  reply.json = std::move(json);
  return reply;
}

Reply whole_reply(const build::Build& build, const Bands& bands) {
  Reply reply{.status = status_of(bands)};
  reply.lines = bands_lines(bands);
  reply.json = with_preamble("bands", build, bands_json(bands));
  return reply;
}

base::Result<PartialTally> read_share(const std::string& path) {
  const auto text = base::read_file(path, largest_file_bytes);
  if (!text) return text.problems();
  const auto json = read_json(text.value());
  auto partial = json ? read_partial(json.value()) : base::Result<PartialTally>(json.problems());
  if (partial) return partial;
  base::Problems problems = partial.problems();
  for (base::Problem& problem : problems) problem.place.file = path;
  return problems;
}

/// All shares of one and the same set of draws, each once.
class Merging {
 public:
  explicit Merging(const build::Build& build)
      : values_(write_json(drawn_values_json(question::band_inputs_of(build)), Layout::OneLine)) {}

  void add(const std::string& path) {
    const auto read = read_share(path);
    if (!read) {
      problems.insert(problems.end(), read.problems().begin(), read.problems().end());
      return;
    }
    const PartialTally& partial = read.value();
    if (write_json(partial.values, Layout::OneLine) != values_) {
      tell(path, "this share was drawn from other values than the sheet has now");
      return;
    }
    if (shares_.empty()) first_ = partial;
    const bool is_alike = partial.seed == first_.seed &&
                          partial.draws_meant == first_.draws_meant &&
                          partial.of_shares == first_.of_shares;
    if (!is_alike) {
      tell(path, "this share belongs to other draws than the first one");
    } else if (!shares_.insert(partial.share).second) {
      tell(path, fmt::format("share {} of {} is given twice", partial.share, partial.of_shares));
    } else {
      tally_.add(partial.tally);
    }
  }

  [[nodiscard]] BandSettings settings(BandSettings asked) const {
    asked.seed = first_.seed;
    asked.draws = first_.draws_meant;
    return asked;
  }
  [[nodiscard]] const question::BandTally& tally() const { return tally_; }

  base::Problems problems;

 private:
  void tell(const std::string& path, std::string text) {
    base::Problem problem{{}, std::move(text), "Merge the shares of one call, each once."};
    problem.place.file = path;
    problems.push_back(std::move(problem));
  }

  std::string values_;
  PartialTally first_;
  std::set<std::uint64_t> shares_;
  question::BandTally tally_;
};

Reply merge(const build::Build& build, const std::vector<std::string>& paths,
            const BandSettings& settings, base::Progress& progress) {
  Merging merging(build);
  for (const std::string& path : paths) merging.add(path);
  if (!merging.problems.empty()) return refusal(merging.problems);
  return whole_reply(
      build, question::bands_from(build, merging.tally(), merging.settings(settings), progress));
}

Reply bands(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const auto settings = settings_of(request);
  if (!settings) return refusal(settings.problems());
  const auto merged = request.options.find("--merge");
  if (merged != request.options.end() && !merged->second.empty()) {
    return merge(build.value(), merged->second, settings.value(), progress);
  }
  const Bands found = question::bands(build.value(), settings.value(), progress);
  if (settings.value().of_shares > 1) return partial_reply(build.value(), found, settings.value());
  return whole_reply(build.value(), found);
}

}  // namespace

Verb bands_verb() {
  return {
      "bands",
      "how sure: from the tolerances of all values to bands, chances and what to measure",
      "Draws every value that has a tolerance anew, again and again, and runs the build each time: "
      "cells as they are in the middle of the ambient, and at the end of their life at its cold "
      "end, with bursts of the devices as their mean. Says between which values run time, "
      "recharge, margins and extremes lie (P5 to P95), how often each need is met, which values "
      "the width "
      "comes from, and which one to measure. Goes on until the bands stand still, or makes as many "
      "draws as --draws says. Status 1 if less than 95 of 100 draws meet all that is asked. "
      "Writes nothing.",
      true,
      bands,
      {},
      {},
      {{"--draws", "N", "exactly N draws, in place of as many as it takes (1024 at most)"},
       {"--seed", "N", "other draws of the same sort; 1 if left out"},
       {"--width-draws", "N", "draws spent on what the width comes from; 0: none"},
       {"--share", "I/N", "only the I-th of N shares of the draws; --json writes it for --merge"},
       {"--merge", "FILE", "put shares together, one --merge each"}}};
}

}  // namespace tideover::service
