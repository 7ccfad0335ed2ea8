#include <array>

#include "part/wire/ampacity.hpp"

namespace tideover::part {

using namespace quantity::literals;

namespace {

constexpr std::string_view vde_source =
    "VDE 0298-4: PVC, 30 degC, groups 1 to 3 (in conduit, multicore, single in free air), as "
    "restated by kochkt.ch";
constexpr std::array vde_group_1{AmpacityRow{0.5, 6.0}, AmpacityRow{0.75, 9.0},
                                 AmpacityRow{1.0, 11.0}, AmpacityRow{1.5, 16.5},
                                 AmpacityRow{2.5, 21.0}};
constexpr std::array vde_group_2{AmpacityRow{0.5, 7.5}, AmpacityRow{0.75, 12.0},
                                 AmpacityRow{1.0, 15.0}, AmpacityRow{1.5, 16.5},
                                 AmpacityRow{2.5, 22.0}};
constexpr std::array vde_group_3{AmpacityRow{0.5, 10.0}, AmpacityRow{0.75, 15.0},
                                 AmpacityRow{1.0, 19.0}, AmpacityRow{1.5, 21.0},
                                 AmpacityRow{2.5, 29.0}};

constexpr std::string_view eee_source =
    "EEE-INST-002: 200 degC insulation, 70 degC ambient, vacuum; single and bundles of 15 and "
    "more, "
    "as restated by oocities.org/dtmcbride (24 to 18 AWG) and electronics.stackexchange.com 314646 "
    "(12 AWG)";
constexpr std::array eee_bundled{AmpacityRow{0.2047, 2.0}, AmpacityRow{0.3255, 2.5},
                                 AmpacityRow{0.5176, 3.7}, AmpacityRow{0.8230, 5.0},
                                 AmpacityRow{3.3088, 11.5}};
constexpr std::array eee_single{AmpacityRow{0.2047, 3.3}, AmpacityRow{0.3255, 4.5},
                                AmpacityRow{0.5176, 6.5}, AmpacityRow{0.8230, 9.2},
                                AmpacityRow{3.3088, 25.0}};

constexpr std::string_view iec_60204_source =
    "IEC 60204-1 table 6: PVC, 40 degC (from memory; 4 mm2 varies by 1 A with the edition)";
constexpr std::array iec_60204_b1{AmpacityRow{0.75, 8.6}, AmpacityRow{1.0, 10.3},
                                  AmpacityRow{1.5, 13.5}, AmpacityRow{2.5, 18.3},
                                  AmpacityRow{4.0, 24.0}};
constexpr std::array iec_60204_b2{AmpacityRow{0.75, 8.5}, AmpacityRow{1.0, 10.1},
                                  AmpacityRow{1.5, 13.1}, AmpacityRow{2.5, 17.4},
                                  AmpacityRow{4.0, 23.0}};
constexpr std::array iec_60204_c{AmpacityRow{0.75, 9.8}, AmpacityRow{1.0, 11.7},
                                 AmpacityRow{1.5, 15.2}, AmpacityRow{2.5, 21.0},
                                 AmpacityRow{4.0, 28.0}};
constexpr std::array iec_60204_e{AmpacityRow{0.75, 10.4}, AmpacityRow{1.0, 12.4},
                                 AmpacityRow{1.5, 16.1}, AmpacityRow{2.5, 22.0},
                                 AmpacityRow{4.0, 30.0}};

constexpr std::string_view old_source =
    "an older VDE list, superseded: PVC, 30 degC, as restated by reinhardt-induserve.com; above "
    "2.5 "
    "mm2 from memory";
constexpr std::array old_group_1{AmpacityRow{0.5, 9.0}, AmpacityRow{0.75, 9.0},
                                 AmpacityRow{1.0, 15.0}, AmpacityRow{1.5, 18.0},
                                 AmpacityRow{2.5, 26.0}};
constexpr std::array old_group_2{
    AmpacityRow{0.5, 9.0},  AmpacityRow{0.75, 12.0}, AmpacityRow{1.0, 15.0},
    AmpacityRow{1.5, 18.0}, AmpacityRow{2.5, 26.0},  AmpacityRow{4.0, 34.0},
    AmpacityRow{6.0, 44.0}, AmpacityRow{10.0, 61.0}, AmpacityRow{16.0, 82.0}};
constexpr std::array old_group_3{
    AmpacityRow{0.5, 12.0}, AmpacityRow{0.75, 15.0}, AmpacityRow{1.0, 19.0},
    AmpacityRow{1.5, 24.0}, AmpacityRow{2.5, 32.0},  AmpacityRow{4.0, 42.0},
    AmpacityRow{6.0, 54.0}, AmpacityRow{10.0, 73.0}, AmpacityRow{16.0, 98.0}};

constexpr std::array tables{
    AmpacityTable{"VDE 0298-4 group 1", vde_source, Laid::Bundled, 30_degC, 70_degC, false,
                  vde_group_1},
    AmpacityTable{"VDE 0298-4 group 2", vde_source, Laid::Multicore, 30_degC, 70_degC, false,
                  vde_group_2},
    AmpacityTable{"VDE 0298-4 group 3", vde_source, Laid::Single, 30_degC, 70_degC, false,
                  vde_group_3},
    AmpacityTable{"EEE-INST-002 bundled", eee_source, Laid::Bundled, 70_degC, 200_degC, true,
                  eee_bundled},
    AmpacityTable{"EEE-INST-002 single", eee_source, Laid::Single, 70_degC, 200_degC, false,
                  eee_single},
    AmpacityTable{"IEC 60204-1 B1", iec_60204_source, Laid::Bundled, 40_degC, 70_degC, false,
                  iec_60204_b1},
    AmpacityTable{"IEC 60204-1 B2", iec_60204_source, Laid::Multicore, 40_degC, 70_degC, false,
                  iec_60204_b2},
    AmpacityTable{"IEC 60204-1 C", iec_60204_source, Laid::Single, 40_degC, 70_degC, false,
                  iec_60204_c},
    AmpacityTable{"IEC 60204-1 E", iec_60204_source, Laid::Single, 40_degC, 70_degC, false,
                  iec_60204_e},
    AmpacityTable{"older VDE list group 1", old_source, Laid::Bundled, 30_degC, 70_degC, false,
                  old_group_1},
    AmpacityTable{"older VDE list group 2", old_source, Laid::Multicore, 30_degC, 70_degC, false,
                  old_group_2},
    AmpacityTable{"older VDE list group 3", old_source, Laid::Single, 30_degC, 70_degC, false,
                  old_group_3},
};

}  // namespace

std::span<const AmpacityTable> ampacity_tables() { return tables; }

}  // namespace tideover::part
