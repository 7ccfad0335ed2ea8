#include "build/parameter.hpp"

#include <algorithm>

namespace tideover::build {

namespace {

using part::Described;
using part::Field;

void collect(Described& thing, const std::string& prefix, std::vector<Parameter>& all) {
  for (const Field& field : thing.description().fields) {
    const std::string path = prefix + field.key;
    if (const auto* const amount = std::get_if<part::AmountField>(&field.what)) {
      all.push_back({path, &field, amount, &amount->amount(thing)});
    } else if (const auto* const record = std::get_if<part::RecordField>(&field.what)) {
      collect(record->record(thing), path + ".", all);
    } else if (const auto* const records = std::get_if<part::RecordsField>(&field.what)) {
      int number = 0;
      for (Described* const item : records->all(thing)) {
        collect(*item, path + "." + std::to_string(++number) + ".", all);
      }
    }
  }
}

/// "pack.cell.capacity" is meant by "pack.capacity".
bool is_short_for(std::string_view path, std::string_view full) {
  const auto dot = path.rfind('.');
  if (dot == std::string_view::npos || full.size() <= path.size()) return false;
  return full.starts_with(path.substr(0, dot + 1)) && full.ends_with(path.substr(dot));
}

}  // namespace

std::vector<Parameter> parameters_of(Build& build) {
  std::vector<Parameter> all;
  collect(build.needs, "needs.", all);
  for (const auto& part : build.parts) collect(*part, part->name + ".", all);
  for (Lead& lead : build.leads) collect(lead.wire, "leads." + lead.name + ".", all);
  return all;
}

const Parameter* find_parameter(const std::vector<Parameter>& all, std::string_view path) {
  const auto exact = std::ranges::find(all, path, &Parameter::path);
  if (exact != all.end()) return &*exact;
  const Parameter* found = nullptr;
  for (const Parameter& one : all) {
    if (!is_short_for(path, one.path)) continue;
    if (found != nullptr) return nullptr;
    found = &one;
  }
  return found;
}

}  // namespace tideover::build
