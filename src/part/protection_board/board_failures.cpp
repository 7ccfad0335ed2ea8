// How a protection board fails. Most of it shows only on the day it is needed.
#include "part/protection_board/protection_board.hpp"

namespace tideover::part {

using namespace quantity;

namespace {

using Board = ProtectionBoard;

/// Voltage thresholds of a board for other cells: 4.25 V becomes 4.38 V, 2.8 V becomes 2.5 V, as of
/// boards for cells charged to 4.35 V (typical, from memory).
constexpr double late_upper = 1.03;
constexpr double late_lower = 0.90;
/// And the other way round: 4.25 V becomes 4.12 V, 2.8 V becomes 3.1 V. Assumed.
constexpr double early_upper = 0.97;
constexpr double early_lower = 1.10;

std::function<void(Part&)> set(bool Board::*flag) {
  return altering<Board>([flag](Board& board) { board.*flag = true; });
}

void add_transistor_failures(const Board& board, std::vector<FailureMode>& modes) {
  const std::string unnoticed = "; nobody notices until it is needed";
  modes.push_back({"both transistors shorted",
                   "it conducts whatever happens and protects nothing" + unnoticed,
                   {bridged("p_minus", "b_minus", board.path_resistance.nominal())}});
  modes.push_back({"discharge transistor shorted",
                   "it cannot stop a discharge" + unnoticed,
                   {},
                   set(&Board::discharge_stuck_on)});
  modes.push_back({"charge transistor shorted",
                   "it cannot stop a charge" + unnoticed,
                   {},
                   set(&Board::charge_stuck_on)});
  modes.push_back({"open", "it lets nothing through in either direction", {opened("p_minus")}});
  modes.push_back({"discharge stuck off",
                   "the pack charges but gives nothing",
                   {},
                   set(&Board::discharge_stuck_off)});
  modes.push_back(
      {"charge stuck off", "the pack gives but takes nothing", {}, set(&Board::charge_stuck_off)});
}

void add_sensing_failures(const Board& board, std::vector<FailureMode>& modes) {
  modes.push_back({"does not watch",
                   "it conducts and never cuts; nobody notices until it is needed",
                   {},
                   set(&Board::is_blind)});
  if (board.series > 1) {
    modes.push_back({"tap 1 off",
                     "its first tap lead has come off: it takes one group for empty and the next "
                     "for overfull, and cuts",
                     {},
                     altering<Board>([](Board& it) { it.tap_off = 1; })});
  }
  if (board.series > 2) {
    modes.push_back({"taps 1 and 2 swapped",
                     "it sees one group the wrong way round: such boards often die of it",
                     {exchanged("tap1", "tap2")}});
  }
  if (board.has_temperature_sensor) {
    modes.push_back({"sensor dead",
                     "it feels no temperature; nobody notices until it is needed",
                     {},
                     altering<Board>([](Board& it) { it.has_temperature_sensor = false; })});
  }
  if (board.has_temperature_sensor && !board.sensor_on.empty()) {
    modes.push_back(
        {"sensor come off", "it feels the board instead", {}, altering<Board>([](Board& it) {
           it.sensor_on.clear();
         })});
  }
}

}  // namespace

void ProtectionBoard::shift_thresholds(double upper, double lower) {
  for (auto* const value : {&over_voltage, &over_voltage_release, &balance_start}) {
    scale(*value, upper);
  }
  for (auto* const value : {&under_voltage, &under_voltage_release}) scale(*value, lower);
}

std::vector<FailureMode> ProtectionBoard::failure_modes() const {
  std::vector<FailureMode> modes;
  add_transistor_failures(*this, modes);
  add_sensing_failures(*this, modes);
  modes.push_back(
      {"cuts too late",
       "it is made for other cells and lets these be charged and emptied too far",
       {},
       altering<Board>([](Board& it) { it.shift_thresholds(late_upper, late_lower); })});
  modes.push_back(
      {"cuts too early",
       "it is made for other cells and lets these be charged and emptied only in part",
       {},
       altering<Board>([](Board& it) { it.shift_thresholds(early_upper, early_lower); })});
  modes.push_back({"minus sides swapped",
                   "the pack hangs on its supply side: it takes charging for discharging",
                   {exchanged("b_minus", "p_minus")}});
  if (balances != Balances::Never) {
    modes.push_back(
        {"bleed stuck on",
         "the first group is bled for ever",
         {bridged(series > 1 ? "tap1" : "b_plus", "b_minus", balance_resistance.nominal())}});
  }
  return modes;
}

}  // namespace tideover::part
