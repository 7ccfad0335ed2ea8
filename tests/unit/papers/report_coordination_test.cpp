// Coordination on paper: bands on logarithmic axes, and a table of every lead.
#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "drawing/svg.hpp"
#include "papers/coordination_plot.hpp"
#include "papers/report_sections.hpp"
#include "support/jetty.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover;
using papers::Story;
using test::jetty;

namespace {

bool contains(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

std::string drawn(const Story& story) { return drawing::svg(story.figure); }

}  // namespace

TEST_CASE(
    "two fuses in a row are one figure, with the leads they protect and the most that flows") {
  const build::Build build = jetty();
  const auto answer = question::coordination(build);
  const auto stories = papers::coordination_figures(answer);
  REQUIRE(stories.size() == 1);
  const std::string figure = drawn(stories.front());
  CHECK(read_xml(figure).fault == "");
  CHECK(contains(figure, "f_pack: 5 A blade"));
  CHECK(contains(figure, "f_lamp: 1 A time-lag"));
  CHECK(contains(figure, " at most from pack"));
  CHECK(contains(figure, "0.75\u00a0mm\u00b2"));
  CHECK(contains(stories.front().caption, "f_lamp"));
}

TEST_CASE("a fuse that stands alone gets a figure of its own") {
  const build::Build build = jetty({{"leads.lamp_feed.between", "['jack.out1', 'f_lamp.a']"}});
  const auto stories = papers::coordination_figures(question::coordination(build));
  REQUIRE(stories.size() == 2);
  CHECK(contains(stories[1].caption, "no other fuse stands in a row with it"));
}

TEST_CASE("the section has a table with every lead under what protects it, and the cautions") {
  const build::Build build = jetty();
  const question::Prediction prediction{};
  const question::Changeovers changeovers{};
  papers::Page page;
  const question::Bands bands{};
  papers::write_coordination({build, prediction, changeovers, bands}, page);
  const std::string& body = page.body();
  const auto bare = body.find("Nothing opens it");
  const auto fused = body.find("Protected by a fuse");
  REQUIRE(bare != std::string::npos);
  REQUIRE(fused != std::string::npos);
  CHECK(bare < body.find("<th scope=\"row\">board_plus</th>"));
  CHECK(fused < body.find("<th scope=\"row\">pack_fused</th>"));
  CHECK(contains(body, "shore's own limit") + contains(body, "shore&#39;s own limit") +
            contains(body, "shore&apos;s own limit") ==
        1);
  CHECK(contains(body, "class=\"caution\""));
  CHECK(contains(body, "<svg"));
}
