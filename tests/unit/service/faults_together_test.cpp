// Faults named in the call, tried at once.
#include <filesystem>
#include <fstream>

#include <doctest/doctest.h>

#include "base/progress.hpp"
#include "service/verb.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using service::Status;

namespace {

service::Reply together(const std::vector<std::string>& words) {
  const auto sheet = std::filesystem::temp_directory_path() / "tideover-faults-together.toml";
  std::ofstream(sheet) << test::beacon_sheet();
  service::Request request{.verb = "faults", .folder = sheet};
  request.options["--together"] = words;
  base::NoProgress nobody;
  return service::answer(request, nobody);
}

}  // namespace

TEST_CASE("faults named in the call are tried at once, and answered in full") {
  const auto reply =
      together({"board: charge transistor shorted", "charger: voltage a tenth high"});
  CHECK(reply.status == Status::Met);
  REQUIRE(reply.lines.size() > 2);
  CHECK(reply.lines[1].words ==
        "board: charge transistor shorted + charger: voltage a tenth high: can burn");
}

TEST_CASE("a fault that is none is refused with the nearest that is") {
  const auto reply = together({"f_pak: bridged"});
  CHECK(reply.status == Status::Refused);
  REQUIRE(reply.problems.size() == 1);
  CHECK(reply.problems[0].remedy == "Did you mean `f_pack: bridged`?");
}
