#include "question/fitted_capacitor.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "build/points.hpp"
#include "part/capacitor/capacitor.hpp"
#include "part/capacitor/sizing.hpp"
#include "part/diode/diode.hpp"
#include "part/load/load.hpp"

namespace tideover::question {

using build::Build;
using build::TerminalName;
using part::Capacitor;
using quantity::Farad;

namespace {

template <class Type>
quantity::Value<Type> tried(Type exact) {
  quantity::Value<Type> value(exact);
  value.given = true;
  value.source = "tried";
  return value;
}

/// A name that no part has.
std::string free_name(const Build& build, std::string name) {
  while (build.find(name) != nullptr) name += '_';
  return name;
}

void join(Build& build, const std::string& name, TerminalName a, TerminalName b) {
  for (build::Join& one : build.joins) {
    if (std::ranges::find(one.terminals, a) == one.terminals.end()) continue;
    one.terminals.push_back(std::move(b));
    return;
  }
  build.joins.push_back({name, {std::move(a), std::move(b)}});
}

void set_size(Capacitor& capacitor, Farad capacitance) {
  capacitor.capacitance = tried(capacitance);
  capacitor.esr = tried(part::usual_esr(capacitance));
  capacitor.used = tried(quantity::Ratio::of_si(0.0));
}

void add_capacitor(Build& build, const std::string& load, Farad capacitance) {
  auto made = std::make_unique<Capacitor>();
  made->name = free_name(build, load + "_capacitor");
  made->rated = tried(quantity::Volt::of_si(100.0));
  set_size(*made, capacitance);
  join(build, made->name + "_plus", {load, "plus"}, {made->name, "plus"});
  join(build, made->name + "_minus", {load, "minus"}, {made->name, "minus"});
  build.parts.push_back(std::move(made));
}

/// Whatever went to `from` goes to `to`.
void move_ends(Build& build, const TerminalName& from, const TerminalName& to) {
  for (build::Lead& lead : build.leads) {
    if (lead.from == from) lead.from = to;
    if (lead.to == from) lead.to = to;
  }
  for (build::Join& one : build.joins) std::ranges::replace(one.terminals, from, to);
}

void put_diode_before(Build& build, const std::string& load) {
  auto made = std::make_unique<part::Diode>();
  made->name = free_name(build, load + "_diode");
  made->material = part::Material::Schottky;
  made->rated = tried(quantity::Ampere::of_si(5.0));
  const TerminalName anode{made->name, "anode"};
  move_ends(build, {load, "plus"}, anode);
  join(build, made->name + "_cathode", {load, "plus"}, {made->name, "cathode"});
  build.parts.push_back(std::move(made));
}

}  // namespace

std::string capacitor_at(const Build& build, const std::string& load) {
  build::Points points;
  for (const build::Join& one : build.joins) {
    for (const TerminalName& terminal : one.terminals) points.merge(one.terminals[0], terminal);
  }
  for (const build::Lead& lead : build.leads) points.merge(lead.from, lead.to);
  const auto meet = [&](const std::string& part, const char* terminal) {
    return points.point_of({part, terminal}) == points.point_of({load, terminal});
  };
  for (const auto& part : build.parts) {
    if (dynamic_cast<const Capacitor*>(part.get()) == nullptr) continue;
    if (meet(part->name, "plus") && meet(part->name, "minus")) return part->name;
  }
  return {};
}

Build with_capacitor(const Build& build, const std::string& load, Farad capacitance,
                     Fitting fitting) {
  TIDEOVER_EXPECT(dynamic_cast<const part::Load*>(build.find(load)) != nullptr, "a load");
  Build made = build.copy();
  const std::string present = capacitor_at(build, load);
  if (present.empty() || fitting == Fitting::BehindDiode) {
    if (fitting == Fitting::BehindDiode) put_diode_before(made, load);
    add_capacitor(made, load, capacitance);
    return made;
  }
  for (auto& part : made.parts) {
    if (part->name != present) continue;
    set_size(dynamic_cast<Capacitor&>(*part), capacitance);
  }
  return made;
}

}  // namespace tideover::question
