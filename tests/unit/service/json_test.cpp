#include "service/json.hpp"

#include <cmath>
#include <limits>

#include <doctest/doctest.h>

#include "service/prediction_json.hpp"
#include "support/hut.hpp"

using tideover::service::Json;
using tideover::service::Layout;
using tideover::service::read_json;
using tideover::service::write_json;
using namespace tideover;

TEST_CASE("objects keep their order and numbers their digits") {
  const Json json =
      Json::Object{{"b", 0.1}, {"a", 3}, {"t", "x\"\n\u00b5"}, {"n", {}}, {"f", true}};
  CHECK(write_json(json, Layout::OneLine) ==
        "{\"b\":0.1,\"a\":3,\"t\":\"x\\\"\\n\u00b5\",\"n\":null,\"f\":true}");
}

TEST_CASE("what is written reads back") {
  for (const double number : {0.1, 1e-300, 1.7976931348623157e308, -273.15, 1.0 / 3.0}) {
    const auto read = read_json(write_json(Json::List{number}, Layout::Indented));
    REQUIRE(read);
    CHECK(read.value().list()->front().number() == number);
  }
}

TEST_CASE("what is not finite is null, never a broken document") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinite = std::numeric_limits<double>::infinity();
  CHECK(write_json(Json::List{nan, infinite, -infinite}, Layout::OneLine) == "[null,null,null]");
}

TEST_CASE("bytes that are no UTF-8 do not stop the writing") {
  CHECK(write_json(std::string("a\xff"), Layout::OneLine) == "\"a\ufffd\"");
}

TEST_CASE("hostile JSON is a problem with its place") {
  const auto broken = read_json("{\n \"a\": ]}");
  REQUIRE_FALSE(broken);
  CHECK(broken.problems().front().place.line == 2);
  CHECK(broken.problems().front().place.column == 7);
  CHECK_FALSE(read_json(std::string(100000, '[')));
  CHECK_FALSE(read_json("[1e999]"));
  CHECK_FALSE(read_json(""));
  CHECK(read_json("[\"[[[[\"]"));
}

TEST_CASE("a record reads back from its JSON") {
  const run::Record record = test::HutRun().record();
  const auto read =
      read_json(write_json(service::record_json(record, service::Samples::Taken), Layout::OneLine));
  REQUIRE(read);
  const Json& json = read.value();
  const auto* const instants = json.find("instants_s")->list();
  const auto* const channels = json.find("channels")->list();
  REQUIRE(instants->size() == record.instants.size());
  REQUIRE(channels->size() == record.channels.size());
  for (std::size_t k = 0; k < record.instants.size(); ++k) {
    CHECK((*instants)[k].number() == record.instants[k].si());
    CHECK((*channels)[0].find("samples")->list()->at(k).number() ==
          doctest::Approx(record.samples_si[0][k]).epsilon(1e-6));
  }
  CHECK(*(*channels)[10].find("unit")->text() == "degC");
  CHECK(*json.find("stretches")->list()->at(1).find("words")->text() == "mains absent");
}

TEST_CASE("a prediction's JSON holds the verdict and who is served until when") {
  const auto usual = question::trial_of(test::HutRun().lost("sea", 7200.0).record(), {});
  question::Prediction prediction{.usual = usual, .worn = usual, .hot = usual};
  prediction.verdict = question::judge({test::hut(), usual, usual, usual, prediction.head_room});
  const auto read = read_json(write_json(service::prediction_json(prediction), Layout::Indented));
  REQUIRE(read);
  const Json& json = read.value();
  CHECK(*json.find("verdict")->find("outcome")->text() == "fails");
  const Json& outage = json.find("trials")->list()->front().find("outages")->list()->front();
  CHECK(outage.find("carried_s")->number() == doctest::Approx(7200.0));
  const Json& sea = outage.find("loads")->list()->front();
  CHECK(*sea.find("load")->text() == "sea");
  CHECK(sea.find("lost_after_s")->number() == doctest::Approx(7200.0));
}
