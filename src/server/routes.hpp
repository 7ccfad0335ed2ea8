/// What the page may ask for, and who answers it.
#pragma once

#include <filesystem>
#include <string>
#include <utility>

#include "server/assets.hpp"
#include "server/guard.hpp"
#include "server/sheet_file.hpp"

namespace tideover::server {

class Routes final : public HttpHandler {
 public:
  /// `project`: a folder, or the sheet in it.
  Routes(std::filesystem::path project, Door door, Assets assets);

  std::optional<HttpAnswer> refuse(const HttpHead& head) override;
  Answering answer(HttpRequest request) override;

 private:
  [[nodiscard]] HttpAnswer hello() const;
  [[nodiscard]] HttpAnswer sheet() const;
  [[nodiscard]] Watch watch() const;
  [[nodiscard]] Answering save(const std::string& body) const;
  [[nodiscard]] Answering edit(const std::string& body) const;
  [[nodiscard]] Answering ask(const std::string& body) const;

  std::filesystem::path project_;
  SheetFile file_;
  Door door_;
  Assets assets_;
};

}  // namespace tideover::server
