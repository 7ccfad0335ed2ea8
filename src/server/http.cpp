#include "server/http.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"

namespace tideover::server {

namespace {

bool is_named(const std::pair<std::string, std::string>& field, std::string_view name) {
  return base::lower_case(field.first) == base::lower_case(name);
}

std::string_view reason_of(int status) {
  switch (status) {
    case 200: return "OK";
    case 304: return "Not Modified";
    case 400: return "Bad Request";
    case 401: return "Unauthorized";
    case 403: return "Forbidden";
    case 404: return "Not Found";
    case 405: return "Method Not Allowed";
    case 408: return "Request Timeout";
    case 409: return "Conflict";
    case 413: return "Content Too Large";
    case 415: return "Unsupported Media Type";
    case 421: return "Misdirected Request";
    case 422: return "Unprocessable Content";
    case 431: return "Request Header Fields Too Large";
    case 500: return "Internal Server Error";
    case 503: return "Service Unavailable";
    case 505: return "HTTP Version Not Supported";
    default: return "Unknown";
  }
}

}  // namespace

std::optional<std::string_view> HttpHead::only(std::string_view name) const {
  const std::string* found = nullptr;
  for (const auto& field : fields) {
    if (!is_named(field, name)) continue;
    if (found != nullptr) return std::nullopt;
    found = &field.second;
  }
  if (found == nullptr) return std::nullopt;
  return *found;
}

bool HttpHead::has(std::string_view name) const {
  return std::ranges::any_of(fields, [&](const auto& field) { return is_named(field, name); });
}

std::string head_text(const HttpAnswer& answer, bool keeps_alive) {
  std::string text = fmt::format("HTTP/1.1 {} {}\r\n", answer.status, reason_of(answer.status));
  for (const auto& [name, value] : answer.fields) text += fmt::format("{}: {}\r\n", name, value);
  if (!keeps_alive) text += "Connection: close\r\n";
  return text;
}

}  // namespace tideover::server
