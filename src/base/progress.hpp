/// How long work tells how far it is and is asked to stop.
#pragma once

#include <string_view>

namespace tideover::base {

class Progress {
 public:
  virtual ~Progress() = default;
  /// `share` of the work done, 0..1; `doing` in words. Cheap enough to be called often.
  virtual void report(double share, std::string_view doing) = 0;
  /// True once the user has asked to stop; work then ends soon and says that it is partial.
  [[nodiscard]] virtual bool stop_asked() const = 0;
};

/// Nobody looks, nobody stops.
class NoProgress final : public Progress {
 public:
  void report(double, std::string_view) override {}
  [[nodiscard]] bool stop_asked() const override { return false; }
};

}  // namespace tideover::base
