#include "build/build.hpp"

namespace tideover::build {

using namespace quantity;
using namespace quantity::literals;

const part::Description& Needs::describe() {
  static const part::Description description =
      part::Describe<Needs>("needs", "What the supply is for.")
          .value("outlast", &Needs::outlast, {1_s, 365_d},
                 "every load is served through an outage this long")
          .required()
          .value("recharge", &Needs::recharge, {1_min, 365_d},
                 "full again this long after the mains is back")
          .range("ambient", &Needs::ambient, {Temperature::of_celsius(-40.0), 70_degC},
                 "temperatures of the air around the build", "assumed: a room")
          .value("life", &Needs::life, {1_d, 10957.5_d}, "years of service asked for")
          .done();
  return description;
}

const part::Part* Build::find(std::string_view name) const {
  for (const auto& part : parts) {
    if (part->name == name) return part.get();
  }
  return nullptr;
}

Build Build::copy() const {
  Build twin;
  twin.title = title;
  twin.file = file;
  twin.needs = needs;
  for (const auto& part : parts) twin.parts.push_back(part->clone());
  twin.leads = leads;
  twin.joins = joins;
  twin.timelines = timelines;
  twin.start = start;
  twin.defects = defects;
  return twin;
}

}  // namespace tideover::build
