/// The sections of the report, in the order in which they stand.
#pragma once

#include "build/build.hpp"
#include "papers/page.hpp"
#include "question/bands.hpp"
#include "question/changeover.hpp"
#include "question/faults.hpp"
#include "question/predict.hpp"

namespace tideover::papers {

/// What a section is written from.
struct ReportMatter {
  const build::Build& build;
  const question::Prediction& prediction;
  const question::Changeovers& changeovers;      ///< without loads where it was not asked
  const question::Bands& bands;                  ///< without draws where they were not asked for
  const question::FaultTable* faults = nullptr;  ///< nothing where it was not asked for
};

/// An energy in Wh as a table's column has it: "12.3", "< 0.01", a dash for none.
[[nodiscard]] std::string watt_hours(quantity::Joule energy);

void write_verdict(const ReportMatter& matter, Page& page);
void write_findings(const ReportMatter& matter, Page& page);
void write_story(const ReportMatter& matter, Page& page);
void write_changeover(const ReportMatter& matter, Page& page);
void write_bands(const ReportMatter& matter, Page& page);
void write_service(const ReportMatter& matter, Page& page);
void write_events(const ReportMatter& matter, Page& page);
void write_extremes(const ReportMatter& matter, Page& page);
void write_standby(const ReportMatter& matter, Page& page);
void write_energy(const ReportMatter& matter, Page& page);
void write_set_points(const ReportMatter& matter, Page& page);
void write_values(const ReportMatter& matter, Page& page);
void write_wires(const ReportMatter& matter, Page& page);
void write_faults(const ReportMatter& matter, Page& page);
void write_coordination(const ReportMatter& matter, Page& page);
void write_kept(const ReportMatter& matter, Page& page);
void write_limits(const ReportMatter& matter, Page& page);
void write_cautions(const ReportMatter& matter, Page& page);

}  // namespace tideover::papers
