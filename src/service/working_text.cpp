#include "service/working_text.hpp"

#include <filesystem>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "build/read_sheet.hpp"

namespace tideover::service {

base::Result<std::string> working_text(const Request& request) {
  if (request.text) return *request.text;
  std::error_code ignored;
  const bool is_folder = std::filesystem::is_directory(request.folder, ignored);
  return base::read_file(is_folder ? request.folder / build::sheet_file_name : request.folder,
                         base::largest_toml_bytes);
}

}  // namespace tideover::service
