/// What one run leaves behind: every question after it is answered from here.
#pragma once

#include <string>
#include <vector>

#include "hybrid/outcome.hpp"
#include "network/behaviour.hpp"
#include "quantity/value.hpp"

namespace tideover::run {

/// A recorded quantity of a part or a lead. Values are SI; temperatures are kelvin.
struct ChannelInfo {
  std::string part;
  std::string name;
  quantity::Dimension dimension;
  bool is_temperature = false;
};

struct Extreme {
  double value_si = 0.0;
  quantity::Second at;
};

/// Something that happened, in words: "sea_relay", "lets go".
struct Event {
  quantity::Second at;
  std::string part;
  std::string words;
  network::Effect effect = network::Effect::Other;
};

/// One stretch of the timeline as it came out.
struct StretchSpan {
  quantity::Second begins;
  quantity::Second ends;
  std::string words;           ///< "mains absent", "mains24 unplugged"
  bool has_mains = true;       ///< every adapter is on the mains
  bool ended_as_asked = true;  ///< false: its event did not come within the time allowed
};

/// When a load served. It does outside these intervals what it does without power.
struct Service {
  std::string load;
  struct Interval {
    quantity::Second from;
    quantity::Second to;
  };
  std::vector<Interval> served;
  bool serves_at_end = true;  ///< false: lost by the very event that ended the run, or earlier
};

/// One rating exceeded at least once.
struct Overload {
  std::string part;
  std::string rating;
  std::size_t channel = 0;
  double limit_si = 0.0;
  bool is_upper = true;
  bool is_polarity = false;  ///< the part is fed backwards
  Extreme worst;
  double mean_si = 0.0;      ///< over all the time for which it was exceeded
  quantity::Second first;    ///< when it was first exceeded
  quantity::Second total;    ///< how long in all
  quantity::Second longest;  ///< how long at a stretch
  quantity::Second stands;   ///< how long it may be exceeded without harm
  std::string source;
};

/// Energy of one part or lead over the run.
struct Account {
  std::string name;  ///< the part's; "leads" for all leads together
  quantity::Joule supplied;
  quantity::Joule served;
  quantity::Joule lost;
};

/// The books of a run: supplied = served + lost + gain of stored + residual.
struct Books {
  std::vector<Account> accounts;
  quantity::Joule stored_before;
  quantity::Joule stored_after;
  quantity::Joule residual;
  /// |residual| over the sum of all flows; a run above its tolerance is an error, never a result.
  double open_share = 0.0;
};

/// Events that come round and round: a board that cuts, recovers, reconnects and cuts again.
struct Chatter {
  std::string part;
  std::string words;  ///< of the repeating event
  int times = 0;
  quantity::Second first;
  quantity::Second last;
  quantity::Second period;  ///< mean
};

struct Record {
  std::string timeline;
  std::vector<ChannelInfo> channels;
  std::vector<quantity::Second> instants;       ///< of the samples, never falling; two samples
                                                ///< at one instant stand around an event
  std::vector<std::vector<double>> samples_si;  ///< [channel][instant]
  std::vector<Extreme> lowest;                  ///< [channel]
  std::vector<Extreme> highest;                 ///< [channel]
  std::vector<Event> events;
  std::vector<StretchSpan> stretches;
  std::vector<Service> services;  ///< one a load, in the order of the sheet
  std::vector<Overload> overloads;
  std::vector<Chatter> chatters;
  std::vector<Extreme> pack_cut_offs;  ///< value unused: instants of "cut off"
  std::vector<Extreme> pack_fulls;     ///< instants at which charging was done
  Books books;
  hybrid::Outcome outcome;
  hybrid::Statistics statistics;
  bool is_partial = false;  ///< interrupted by the user

  /// Index of a channel, or -1.
  [[nodiscard]] int find(std::string_view part, std::string_view name) const;
};

}  // namespace tideover::run
