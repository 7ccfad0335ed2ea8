#include "question/laboratory.hpp"

#include <stdexcept>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;
using question::carry_out;
using question::Experiment;

namespace {

build::Build lamp() {
  auto read = build::read_sheet(R"(
[needs]
outlast = "10 min"
[parts.lamp]
kind = "load"
draws = "3 W"
accepts = "10 V to 14 V"
[parts.wall]
kind = "adapter"
output = "12 V"
rated = "1 A"
[leads.there]
between = ["wall.plus", "lamp.plus"]
size = "0.75 mm2"
length = "1 m"
[leads.back]
between = ["lamp.minus", "wall.minus"]
size = "0.75 mm2"
length = "1 m"
)",
                                "lamp.toml", shelf::built_in_shelf());
  REQUIRE(read);
  return read.value().copy();
}

build::Timeline minutes(const std::string& name, double count) {
  build::Stretch stretch;
  stretch.lasts = quantity::Value<quantity::Second>(quantity::Second::of_si(60.0 * count));
  return {name, {stretch}, 1};
}

class Impatient final : public base::Progress {
 public:
  void report(double share, std::string_view) override {
    CHECK(share >= last_);
    last_ = share;
    ++heard_;
  }
  [[nodiscard]] bool stop_asked() const override { return heard_ > 0; }

 private:
  double last_ = 0.0;
  int heard_ = 0;
};

}  // namespace

TEST_CASE("records come back in the order they were asked for, the same as one by one") {
  const build::Build build = lamp();
  std::vector<Experiment> experiments;
  for (int k = 1; k <= 6; ++k) {
    experiments.push_back({&build, minutes(std::to_string(k), 7.0 - k), {}, ""});
  }
  base::NoProgress nobody;
  const auto records = carry_out(experiments, {}, nobody);
  REQUIRE(records.size() == 6);
  for (std::size_t k = 0; k < records.size(); ++k) {
    CHECK(records[k].timeline == experiments[k].timeline.name);
    const auto alone = run::run(build, experiments[k].timeline, {}, {}, nobody);
    CHECK(records[k].instants == alone.instants);
    CHECK(records[k].samples_si == alone.samples_si);
  }
}

TEST_CASE("once the user asks to stop, what has not begun is empty and says it is partial") {
  const build::Build build = lamp();
  const std::vector<Experiment> experiments(4000, {&build, minutes("long", 1e5), {}, ""});
  Impatient user;
  const auto records = carry_out(experiments, {}, user);
  CHECK(records.back().is_partial);
  CHECK(records.back().instants.empty());
}

TEST_CASE("given a run that is stopped while the build still settles, nothing of it is judged") {
  struct Stopped final : base::Progress {
    void report(double, std::string_view) override {}
    [[nodiscard]] bool stop_asked() const override { return true; }
  } at_once;
  const run::Record stopped = run::run(lamp(), minutes("long", 1e5), {}, {}, at_once);
  REQUIRE(stopped.is_partial);
  REQUIRE(stopped.stretches.empty());
  REQUIRE_FALSE(stopped.channels.empty());
  const run::Record kept = question::what_was_begun(stopped);
  CHECK(kept.is_partial);
  CHECK(kept.timeline == "long");
  CHECK(kept.channels.empty());
  base::NoProgress nobody;
  const run::Record whole = run::run(lamp(), minutes("one", 1.0), {}, {}, nobody);
  CHECK_FALSE(question::what_was_begun(whole).channels.empty());
}

TEST_CASE("a fault in a run is thrown where the work was asked for") {
  const build::Build build = lamp();
  run::Settings settings;
  settings.integrator = [](hybrid::System&,
                           std::vector<double>) -> std::unique_ptr<hybrid::Integrator> {
    throw std::runtime_error("as planned");
  };
  base::NoProgress nobody;
  CHECK_THROWS_WITH(carry_out({{&build, minutes("one", 1.0), {}, ""}}, settings, nobody),
                    "as planned");
  CHECK(carry_out({}, {}, nobody).empty());
}
