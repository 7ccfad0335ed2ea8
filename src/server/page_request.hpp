/// What the page sends, read from JSON: anything may come, and all that is wrong with it is told.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "build/edit_sheet.hpp"
#include "service/verb.hpp"

namespace tideover::server {

struct SaveRequest {
  std::string text;
  std::optional<std::string> base;  ///< the revision it was made from; none: a new file
};
struct EditRequest {
  std::string text;
  std::vector<build::Edit> edits;
};

/// Keys of one object.
[[nodiscard]] base::Result<SaveRequest> read_save_request(std::string_view body);
[[nodiscard]] base::Result<EditRequest> read_edit_request(std::string_view body);
/// Without the folder. Only options of the verb; none that names a file.
[[nodiscard]] base::Result<service::Request> read_ask_request(std::string_view body);

}  // namespace tideover::server
