/// The fault table for programs, and as rows for a spreadsheet.
#pragma once

#include <string>

#include "question/faults.hpp"
#include "service/json.hpp"

namespace tideover::service {

[[nodiscard]] Json::Object faults_json(const question::FaultTable& table);
/// A row a fault and onset; commas and quotes as RFC 4180 has them.
[[nodiscard]] std::string faults_csv(const question::FaultTable& table);

}  // namespace tideover::service
