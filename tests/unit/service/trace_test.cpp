// `trace`: one run through time, for plots and a time cursor.
#include <algorithm>
#include <cmath>
#include <filesystem>

#include <doctest/doctest.h>

#include "service/verb.hpp"

using namespace tideover;
using service::Json;

namespace {

const std::vector<std::string> examples{"tide-hut", "frost-watch", "tower-clock", "weir-alarm"};

service::Reply ask(const std::string& example,
                   std::map<std::string, std::vector<std::string>> options) {
  base::NoProgress progress;
  return service::answer(
      {.verb = "trace",
       .folder = std::filesystem::path(TIDEOVER_SOURCE_DIR) / "examples" / example,
       .options = std::move(options)},
      progress);
}

double number(const Json& json, std::string_view key) { return json.find(key)->number().value(); }

}  // namespace

TEST_CASE("A trace of any example has rising instants, and a value of each channel at each") {
  for (const std::string& example : examples) {
    CAPTURE(example);
    const service::Reply reply = ask(example, {{"--quick", {"yes"}}});
    const Json::List& at = *reply.json.find("instants_s")->list();
    REQUIRE(at.size() > 2);
    CHECK(at.size() <= 800);
    CHECK(reply.json.find("instants")->list()->size() == at.size());
    for (std::size_t k = 1; k < at.size(); ++k) {
      REQUIRE(at[k - 1].number().value() < at[k].number().value());
    }
    for (const Json& channel : *reply.json.find("channels")->list()) {
      REQUIRE(channel.find("values")->list()->size() == at.size());
    }
    double shares = 0.0;
    for (const Json& fold : *reply.json.find("folds")->list()) shares += number(fold, "share");
    CHECK(shares == doctest::Approx(1.0));
    if (example == "weir-alarm") continue;  // it has more events than a trace has instants
    for (const Json& event : *reply.json.find("events")->list()) {
      const double event_s = number(event, "at_s");
      CHECK(std::ranges::any_of(
          at, [&](const Json& one) { return std::abs(one.number().value() - event_s) < 1e-6; }));
    }
  }
}

TEST_CASE("A timeline that the sheet does not have is refused") {
  const service::Reply reply = ask("tide-hut", {{"--timeline", {"nope"}}});
  CHECK(reply.status == service::Status::Refused);
  CHECK(reply.problems.size() == 1);
}
