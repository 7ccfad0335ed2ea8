// `bands` as a whole verb: answers for people and programs, shares of the draws and their merging.
#include <algorithm>
#include <filesystem>

#include <doctest/doctest.h>

#include "base/file.hpp"
#include "service/bands_json.hpp"
#include "service/bands_lines.hpp"
#include "service/verb.hpp"
#include "support/buoy.hpp"

using namespace tideover;
namespace fs = std::filesystem;
using Options = std::map<std::string, std::vector<std::string>>;

namespace {

fs::path buoy_folder(const test::Buoy& values = {}) {
  const fs::path folder = fs::temp_directory_path() / "tideover-bands-buoy";
  fs::create_directories(folder);
  REQUIRE(base::write_file(folder / "sheet.toml", test::buoy_sheet(values)).empty());
  return folder;
}

service::Reply ask(const fs::path& folder, const Options& options) {
  base::NoProgress nobody;
  return service::answer({.verb = "bands", .folder = folder, .options = options}, nobody);
}

std::string json_of(const service::Reply& reply) {
  return service::write_json(reply.json, service::Layout::Indented);
}

std::string write_share(const fs::path& folder, int share, int of, const std::string& draws) {
  const auto reply = ask(folder, {{"--draws", {draws}},
                                  {"--share", {std::to_string(share) + "/" + std::to_string(of)}}});
  CHECK(reply.status == service::Status::Met);
  const fs::path path = folder / ("part-" + std::to_string(share) + ".json");
  REQUIRE(base::write_file(path, json_of(reply)).empty());
  return path.string();
}

bool has_line(const service::Reply& reply, const std::string& words) {
  return std::ranges::any_of(reply.lines, [&](const service::Line& line) {
    return line.words.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("merged shares are, byte for byte, what one call for all draws answers") {
  const fs::path folder = buoy_folder();
  const Options widths{{"--draws", {"44"}}, {"--width-draws", {"40"}}};
  const service::Reply whole = ask(folder, widths);
  std::vector<std::string> parts;
  for (const int share : {2, 3, 1}) parts.push_back(write_share(folder, share, 3, "44"));
  const service::Reply merged = ask(folder, {{"--merge", parts}, {"--width-draws", {"40"}}});
  CHECK(json_of(merged) == json_of(whole));
  CHECK(merged.status == whole.status);

  const service::Reply lacking = ask(folder, {{"--merge", {parts[0], parts[2]}}});
  CHECK(lacking.status == service::Status::Stopped);
  CHECK(has_line(lacking, "30 draws of 44"));
}

TEST_CASE("shares that do not belong together are refused, each by its file") {
  const fs::path folder = buoy_folder();
  const std::string one = write_share(folder, 1, 2, "8");
  CHECK(ask(folder, {{"--merge", {one, one}}}).status == service::Status::Refused);
  const std::string other = write_share(folder, 2, 2, "10");
  const auto unlike = ask(folder, {{"--merge", {one, other}}});
  REQUIRE(unlike.problems.size() == 1);
  CHECK(unlike.problems[0].place.file == other);

  const fs::path changed = buoy_folder({.capacity = "{ value = '4 Ah +/- 5 %' }"});
  const auto stale = ask(changed, {{"--merge", {one}}});
  REQUIRE(stale.problems.size() == 1);
  CHECK(stale.problems[0].text == "this share was drawn from other values than the sheet has now");

  REQUIRE(base::write_file(folder / "part-9.json", "{\"share\": 1}").empty());
  const auto broken = ask(folder, {{"--merge", {(folder / "part-9.json").string()}}});
  CHECK(broken.status == service::Status::Refused);
  CHECK(ask(folder, {{"--merge", {(folder / "none.json").string()}}}).status ==
        service::Status::Refused);
}

TEST_CASE("a tally that was tampered with is no tally") {
  const fs::path folder = buoy_folder();
  const service::Reply reply = ask(folder, {{"--draws", {"6"}}, {"--share", {"1/2"}}});
  const std::string sound = service::write_json(reply.json, service::Layout::OneLine);
  const auto read = [](std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    const auto json = service::read_json(text);
    REQUIRE(json);
    return service::read_partial(json.value()).has_value();
  };
  CHECK(read(sound, "\"share\"", "\"share\""));
  CHECK_FALSE(read(sound, "\"of_shares\":2", "\"of_shares\":0"));
  CHECK_FALSE(read(sound, "\"seed\":1", "\"seed\":-1"));
  CHECK_FALSE(read(sound, "\"lowest_si\":", "\"lowest_si\":-"));
  CHECK_FALSE(read(sound, "\"met\":[[", "\"met\":[[9"));
  CHECK_FALSE(read(sound, "\"buckets\":[[", "\"buckets\":[[1,1],["));
  CHECK_FALSE(read(sound, "\"tally\"", "\"tale\""));
}

TEST_CASE("options that make no sense are refused, all of them at once") {
  const fs::path folder = buoy_folder();
  const auto reply = ask(folder, {{"--draws", {"0"}}, {"--seed", {"x"}}, {"--share", {"3/2"}}});
  CHECK(reply.status == service::Status::Refused);
  REQUIRE(reply.problems.size() == 3);
  CHECK(reply.problems[0].text == "--draws is 0");
  CHECK(reply.problems[2].remedy == "Expected the share and their number: 2/8.");
}

TEST_CASE("people are told chances, bands and what to measure") {
  const fs::path folder = buoy_folder();
  const auto reply = ask(folder, {{"--draws", {"64"}}, {"--width-draws", {"40"}}});
  CHECK(reply.status == service::Status::NotMet);
  CHECK(has_line(reply, "64 draws (timeline night"));
  CHECK(has_line(reply, "Drawn: 2 values with a tolerance"));
  CHECK(
      has_line(reply, "Every device is carried for as long as asked (cells as they are, 25 degC)"));
  CHECK(has_line(reply, "half of them below"));
  CHECK(has_line(reply, "Measure lamp.draws_current and state its tolerance"));
  // Nothing guards the buoy's pack: whatever is carried, what can do harm is told.
  CHECK(has_line(reply, "A fuse for each source: pack: broken by 100 % of the draws"));
}

TEST_CASE("the status is that of all needs together, in ninety-five draws of a hundred") {
  const auto status_with = [](std::uint64_t met) {
    question::Bands bands;
    for (std::uint64_t draw = 0; draw < 100; ++draw) {
      question::DrawOutcome outcome;
      outcome.needs.push_back({{question::NeedKey::Need::All, 0}, draw < met});
      bands.tally.add(draw, outcome);
    }
    return service::status_of(bands);
  };
  CHECK(status_with(100) == service::Status::Met);
  CHECK(status_with(95) == service::Status::Met);
  CHECK(status_with(94) == service::Status::NotMet);
}
