/// The terminal: results on standard output, talk on standard error, colour and progress only where
/// someone looks.
#pragma once

#include <string>
#include <string_view>

#include "base/progress.hpp"
#include "service/verb.hpp"

namespace tideover::cli {

/// Where a stream of the program goes.
struct Stream {
  bool is_terminal = false;
  bool is_coloured = false;  ///< a terminal, not `dumb`, and NO_COLOR (no-color.org) not set
  int width = 80;            ///< columns
};
[[nodiscard]] Stream standard_output();
[[nodiscard]] Stream standard_error();

/// Broken at blanks to the width; what a line is indented by, its continuation is too.
[[nodiscard]] std::string wrapped(std::string_view words, int width);
/// Wrapped on a terminal only, coloured if asked for.
[[nodiscard]] std::string printed(const service::Line& line, const Stream& stream);

/// SIGINT raises a flag instead of ending the program; a second one ends it.
void listen_for_interrupt();
[[nodiscard]] bool is_interrupted();

/// A bar on standard error while it is a terminal and work takes longer than a blink; a plain line
/// every few seconds where it is not. Stops when the user interrupts.
class ProgressBar final : public base::Progress {
 public:
  explicit ProgressBar(const Stream& stream);
  ~ProgressBar() override;
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;
  void report(double share, std::string_view doing) override;
  [[nodiscard]] bool stop_asked() const override { return is_interrupted(); }

 private:
  Stream stream_;
  double began_s_;
  double drawn_s_;
  bool is_drawn_ = false;
};

/// Progress for a file or a pipe: "tideover: 40 % done, at storm, cells as they are, 18 degC".
[[nodiscard]] std::string line_text(double share, std::string_view doing);
/// The bar as text of at most `width` columns: "[#####.....]  50 %  settling".
[[nodiscard]] std::string bar_text(double share, std::string_view doing, int width);

}  // namespace tideover::cli
