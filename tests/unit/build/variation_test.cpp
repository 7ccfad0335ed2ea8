// Values named by their paths, set one by one, and a build that is varied and given back.
#include "build/variation.hpp"

#include <doctest/doctest.h>

#include "build/parameter.hpp"
#include "part/fuse/fuse.hpp"
#include "part/pack/pack.hpp"
#include "shelf/shelf.hpp"
#include "support/hut.hpp"

using namespace tideover;
using build::Workpiece;

namespace {

double si_of(const build::Build& build, const std::string& path) {
  build::Build copy = build.copy();
  const auto all = build::parameters_of(copy);
  const build::Parameter* const found = build::find_parameter(all, path);
  REQUIRE_MESSAGE(found != nullptr, path);
  return found->amount->nominal_si;
}

std::string refused(const std::string& assignment) {
  build::Build build = test::hut();
  const base::Problems problems = build::set_value(build, assignment, shelf::built_in_shelf());
  REQUIRE_MESSAGE(!problems.empty(), assignment);
  return problems.front().text + "; " + problems.front().remedy;
}

build::Build with(const std::string& assignment) {
  build::Build build = test::hut();
  const base::Problems problems = build::set_value(build, assignment, shelf::built_in_shelf());
  REQUIRE_MESSAGE(problems.empty(), (problems.empty() ? "" : problems.front().text));
  return build;
}

}  // namespace

TEST_CASE("every amount of a build has one path, and a short one where it is meant by no other") {
  build::Build hut = test::hut();
  const auto all = build::parameters_of(hut);
  for (const build::Parameter& one : all) {
    CHECK_MESSAGE(build::find_parameter(all, one.path) == &one, one.path);
  }
  CHECK(build::find_parameter(all, "pack.capacity") ==
        build::find_parameter(all, "pack.cell.capacity"));
  CHECK(build::find_parameter(all, "needs.outlast") != nullptr);
  CHECK(build::find_parameter(all, "pack.no_such_value") == nullptr);
  CHECK(build::find_parameter(all, "pack") == nullptr);
}

TEST_CASE("a value set from the command line is read as the sheet would read it") {
  const build::Build weaker = with("pack.capacity = 3 Ah +/- 5 %");
  CHECK(si_of(weaker, "pack.cell.capacity") == doctest::Approx(3.0 * 3600.0));
  const auto& pack = dynamic_cast<const part::Pack&>(*weaker.find("pack"));
  CHECK(pack.cell.capacity.low_si == doctest::Approx(0.95 * 3.0 * 3600.0));
  CHECK(pack.cell.capacity.given);
  const build::Build wider = with("pack.parallel=3");
  CHECK(dynamic_cast<const part::Pack&>(*wider.find("pack")).parallel == 3);
  CHECK(si_of(with("needs.outlast=6 h"), "needs.outlast") == 6.0 * 3600.0);
}

TEST_CASE("what cannot be set says why and what could be meant") {
  CHECK(refused("pack.capacity=3 V").find("3 V") != std::string::npos);
  CHECK(refused("pak.capacity=3 Ah") == "the build has no `pak`; Did you mean `pack`?");
  CHECK(refused("pack.capacty=3 Ah").find("is no value of the build") != std::string::npos);
  CHECK(refused("pack.capacity=-3 Ah").find("capacity") != std::string::npos);
  CHECK(refused("pack.capacity").find("expected PATH=VALUE") != std::string::npos);
  CHECK(refused("=3 Ah").find("expected PATH=VALUE") != std::string::npos);
  CHECK(refused("pack.series=4").find("other terminals") != std::string::npos);
  CHECK(refused("leads.nowhere.length=1 m").find("`leads.nowhere`") != std::string::npos);
  CHECK(refused("pack.=3 Ah").find("is no value of the build") != std::string::npos);
}

TEST_CASE("a workpiece takes one variation after another and gives each back") {
  const build::Build hut = test::hut();
  Workpiece piece(hut);
  const double sound_si = si_of(hut, "pack.cell.capacity");
  piece.vary({"weaker cells", {build::Setting{"pack.capacity", 1000.0}}});
  CHECK(si_of(piece.build(), "pack.cell.capacity") == 1000.0);
  piece.vary(
      {"a lead off", {build::bridge_between({"pack", "plus"}, {"pack", "minus"}, part::bridge)}});
  CHECK(si_of(piece.build(), "pack.cell.capacity") == sound_si);
  CHECK(piece.build().defects.size() == 1);
  piece.take_back();
  CHECK(piece.build().defects.empty());
}

TEST_CASE("a value set twice in one variation is back where it was before either") {
  const build::Build hut = test::hut();
  Workpiece piece(hut);
  const double sound_si = si_of(hut, "pack.cell.capacity");
  piece.vary({"", {build::Setting{"pack.capacity", 1.0}, build::Setting{"pack.capacity", 2.0}}});
  CHECK(si_of(piece.build(), "pack.cell.capacity") == 2.0);
  piece.take_back();
  CHECK(si_of(piece.build(), "pack.cell.capacity") == sound_si);
}
