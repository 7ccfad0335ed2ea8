// What the changes of source add to the verdict.
#include "question/judge_changes.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "papers/report.hpp"
#include "service/prediction_lines.hpp"
#include "support/two_sources.hpp"

using namespace tideover;
using namespace tideover::question;

namespace {

// While the contact travels the load lives on its capacitor: C (U0^2 - U1^2) / 2 = 3.15 mJ last
// 15 ms at 0.2 W and 0.16 ms at 20 W. Its profile is quiet when the plug is pulled, so that only
// the highest draw is hard.
build::Build quiet_when_it_comes(const std::string& rides) {
  return test::fixed_transfer("accepts = \"9 V to 14 V\"\nrides = \"" + rides +
                                  "\"\ninput_capacitance = \"100 uF\"\nprofile = [\n"
                                  "{ draws = \"0.2 W\", lasts = \"110 s\" },\n"
                                  "{ draws = \"20 W\", lasts = \"10 s\" } ]\n",
                              "5 ms")
      .build();
}

struct Asked {
  Prediction prediction;
  Changeovers changes;
};

Asked ask(const build::Build& build) {
  base::NoProgress nobody;
  return {predict(build, {}, nobody), changeover(build, {}, nobody)};
}

}  // namespace

TEST_CASE(
    "given a load that rides a change only while it draws little, then the verdict says that it "
    "fails at its highest draw") {
  const build::Build build = quiet_when_it_comes("1 ms");
  auto [prediction, changes] = ask(build);
  REQUIRE_FALSE(changes.rides_through());
  const std::vector<Judgement> found = judge_changes(changes, prediction);
  const auto fails = std::ranges::find(found, Answer::Fails, &Judgement::answer);
  REQUIRE(fails != found.end());
  CHECK(fails->key() == "change");
  CHECK(fails->sentence.starts_with("When sense is unplugged, buoy does not ride through"));
  CHECK(fails->sentence.ends_with("(every load at its highest draw)."));
  CHECK(fails->remedy.starts_with("buoy: "));

  add_judgements(found, prediction.verdict);
  CHECK(prediction.verdict.outcome == Answer::Fails);
  CHECK_FALSE(prediction.verdict.is_met);
  const std::string html = papers::report_html(build, prediction, "9.9.9", changes);
  const auto verdict = html.find("<section id=\"verdict\"");
  const std::string section = html.substr(verdict, html.find("</section>", verdict) - verdict);
  CHECK(section.find("Every need is met") == std::string::npos);
  CHECK(section.find("When sense is unplugged, buoy does not ride through") != std::string::npos);
  for (const service::Line& line : service::prediction_lines(build, prediction)) {
    CHECK(line.words.find("Every need is met") == std::string::npos);
  }
}

TEST_CASE("given a load that rides through every change, nothing is added to the verdict") {
  auto [prediction, changes] = ask(quiet_when_it_comes("1 s"));
  REQUIRE(changes.rides_through());
  CHECK(judge_changes(changes, prediction).empty());
}
