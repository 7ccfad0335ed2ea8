/// The values of a sheet as JSON.
#pragma once

#include "build/sheet_values.hpp"
#include "service/json.hpp"

namespace tideover::service {

/// `build` is what the values were taken from.
[[nodiscard]] Json::Object values_json(const build::Build& build, const build::SheetValues& values);

}  // namespace tideover::service
