#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>

#include <fmt/format.h>

#include "base/text.hpp"

namespace tideover::cli {

namespace {

volatile std::sig_atomic_t interrupted = 0;

void note_interrupt(int) {
  interrupted = 1;
  // A second one ends the program at once, as its users expect.
  std::signal(SIGINT, SIG_DFL);
}

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

bool is_set(const char* variable) {
  const char* const value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

Stream stream_of(int descriptor) {
  Stream stream{.is_terminal = isatty(descriptor) == 1};
  if (!stream.is_terminal) return stream;
  const char* const terminal = std::getenv("TERM");
  stream.is_coloured =
      !is_set("NO_COLOR") && terminal != nullptr && std::string_view(terminal) != "dumb";
  winsize size{};
  if (ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col >= 20) stream.width = size.ws_col;
  return stream;
}

std::string_view colour_of(service::Tone tone) {
  switch (tone) {
    case service::Tone::Strong: return "\x1b[1m";
    case service::Tone::Quiet: return "\x1b[2m";
    case service::Tone::Good: return "\x1b[32m";
    case service::Tone::Warning: return "\x1b[33m";
    case service::Tone::Bad: return "\x1b[31;1m";
    case service::Tone::Plain: break;
  }
  return "";
}

}  // namespace

Stream standard_output() { return stream_of(STDOUT_FILENO); }
Stream standard_error() { return stream_of(STDERR_FILENO); }

std::string wrapped(std::string_view words, int width) {
  const std::size_t indent = std::min(words.find_first_not_of(' '), words.size());
  std::string text;
  std::string line(indent, ' ');
  std::size_t used = indent;
  std::string_view rest = words.substr(indent);
  while (!rest.empty()) {
    const auto blank = std::min(rest.find(' '), rest.size());
    const std::string_view word = rest.substr(0, blank);
    const std::size_t length = base::count_code_points(word);
    if (used > indent && used + 1 + length > static_cast<std::size_t>(width)) {
      text += line + "\n";
      line.assign(indent, ' ');
      used = indent;
    }
    if (used > indent) {
      line += ' ';
      ++used;
    }
    line += word;
    used += length;
    rest.remove_prefix(std::min(blank + 1, rest.size()));
  }
  return text + line;
}

std::string printed(const service::Line& line, const Stream& stream) {
  if (!stream.is_terminal) return line.words + "\n";
  const std::string text = wrapped(line.words, std::min(stream.width, 100));
  const std::string_view colour = stream.is_coloured ? colour_of(line.tone) : "";
  if (colour.empty()) return text + "\n";
  return std::string(colour) + text + "\x1b[0m\n";
}

void listen_for_interrupt() { std::signal(SIGINT, note_interrupt); }

bool is_interrupted() { return interrupted != 0; }

ProgressBar::ProgressBar(const Stream& stream)
    : stream_(stream), began_s_(now_s()), drawn_s_(began_s_) {}

ProgressBar::~ProgressBar() {
  if (is_drawn_) std::fputs("\r\x1b[K", stderr);
}

void ProgressBar::report(double share, std::string_view doing) {
  constexpr double blink_s = 0.3;
  constexpr double redraw_s = 0.08;
  constexpr double line_s = 4.0;
  const double now = now_s();
  if (!stream_.is_terminal) {
    if (now - drawn_s_ < line_s) return;
    drawn_s_ = now;
    std::fputs((line_text(share, doing) + "\n").c_str(), stderr);
    return;
  }
  if (now - began_s_ < blink_s || now - drawn_s_ < redraw_s) return;
  drawn_s_ = now;
  is_drawn_ = true;
  std::fputs(("\r" + bar_text(share, doing, stream_.width - 1) + "\x1b[K").c_str(), stderr);
  std::fflush(stderr);
}

std::string line_text(double share, std::string_view doing) {
  return fmt::format("tideover: {:.0f} % done{}{}", 100.0 * std::clamp(share, 0.0, 1.0),
                     doing.empty() ? "" : ", at ", doing);
}

std::string bar_text(double share, std::string_view doing, int width) {
  constexpr int cells = 24;
  const double known = std::clamp(share, 0.0, 1.0);
  const auto full = static_cast<int>(known * cells);
  std::string text = fmt::format("[{:#<{}}{:.<{}}] {:3.0f} %  {}", "", full, "", cells - full,
                                 100.0 * known, doing);
  const auto most = static_cast<std::size_t>(std::max(width, 0));
  if (base::count_code_points(text) > most) text.resize(base::byte_of_code_point(text, most));
  return text;
}

}  // namespace tideover::cli
