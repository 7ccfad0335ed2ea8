#include "papers/run_csv.hpp"

#include <iterator>

#include <fmt/format.h>

#include "papers/channel_unit.hpp"
#include "papers/csv_field.hpp"
#include "question/thinning.hpp"

namespace tideover::papers {

std::string run_csv(const run::Record& record) {
  std::string text = "time [s]";
  std::vector<ChannelUnit> units;
  for (const run::ChannelInfo& channel : record.channels) {
    units.push_back(unit_of(channel));
    text +=
        "," + csv_field(fmt::format("{} {} [{}]", channel.part, channel.name, units.back().plain));
  }
  text += "\r\n";
  auto out = std::back_inserter(text);
  for (const std::size_t k : question::kept_instants(record)) {
    fmt::format_to(out, "{:.12g}", record.instants[k].si());
    for (std::size_t c = 0; c < record.samples_si.size(); ++c) {
      fmt::format_to(out, ",{:.7g}", units[c].of_si(record.samples_si[c][k]));
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace tideover::papers
