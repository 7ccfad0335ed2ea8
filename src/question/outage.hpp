/// What one time without mains did to the loads and to the pack, read from a record.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "run/record.hpp"

namespace tideover::question {

/// A time in which a load that was served before is not, and is again afterwards.
struct Interruption {
  enum class When {
    AtLoss,  ///< within `at_loss` of the loss of mains
    During,
    AtReturn,  ///< within `at_return` of the return of mains
  };
  When when{};
  quantity::Second from;  ///< instants of the record
  quantity::Second to;
  [[nodiscard]] quantity::Second length() const { return to - from; }
};

/// One load through one outage. Times count from the loss of mains, `back_after` from its return.
struct Serving {
  std::string load;
  bool served_before = false;  ///< at the loss of mains
  std::optional<quantity::Second>
      lost_after;  ///< not served again before the mains is back; with
                   ///< what is stored, a moment after the pack's cut-off
  std::optional<quantity::Second> back_after;
  std::vector<Interruption> interruptions;
};

/// Times count from the loss of mains, `full_after` from its return.
struct Outage {
  quantity::Second begins;  ///< instants of the record
  quantity::Second ends;
  bool mains_returns = false;                  ///< else the record ends in it
  std::string words;                           ///< of its first stretch
  std::vector<Serving> servings;               ///< one a load
  quantity::Second carried;                    ///< until the first load lost or interrupted
  bool carried_whole = false;                  ///< none was: `carried` is the length of the outage
  std::optional<quantity::Second> first_lost;  ///< for good
  std::optional<quantity::Second> last_lost;   ///< set where all are lost
  std::optional<quantity::Second> cut_off;     ///< of the pack
  std::string ended_by;  ///< what took the first load: "board cuts the discharge: group 3 is empty"
  std::string cut_off_by;  ///< what cut the pack off
  std::optional<quantity::Second> full_after;
  bool waited_for_full = false;  ///< a stretch waited for the pack to be full in vain

  [[nodiscard]] quantity::Second length() const { return ends - begins; }
};

/// How near to a change of the mains an interruption counts as caused by it: longer than adapters
/// hold up and start, shorter than a pack takes to empty. Assumed.
inline constexpr double at_loss_s = 5.0;
inline constexpr double at_return_s = 60.0;

/// The mains itself going or coming back at an adapter: seen by everyone, the cause of nothing
/// else.
[[nodiscard]] bool is_of_the_mains(const run::Event& event);

[[nodiscard]] bool serves_at(const run::Service& service, quantity::Second instant);

/// In the order in which they begin.
[[nodiscard]] std::vector<Outage> outages_of(const run::Record& record);

}  // namespace tideover::question
