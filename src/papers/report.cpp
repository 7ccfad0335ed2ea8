#include "papers/report.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "papers/report_sections.hpp"

namespace tideover::papers {

namespace {

std::string subtitle(const build::Build& build) {
  std::size_t loads = 0;
  for (const auto& part : build.parts) loads += part->description().name == "load" ? 1U : 0U;
  return fmt::format(
      "What this supply does when the mains goes: {} parts, {} leads, {} {} carried.",
      build.parts.size(), build.leads.size(), loads, loads == 1 ? "device" : "devices");
}

std::string foot(const build::Build& build, const question::Prediction& prediction,
                 const std::string& version) {
  double open_share = 0.0;
  for (const question::Trial* trial : prediction.trials()) {
    open_share = std::max(open_share, trial->record.books.open_share);
  }
  return fmt::format(
      "Computed by tideover {} from {}. The energy books of every run close to {:.1g} of all that "
      "flowed. Computed, not measured: see what the tool cannot know.",
      version, build.file.empty() ? "a sheet without a file" : build.file, open_share);
}

}  // namespace

std::string report_html(const build::Build& build, const question::Prediction& prediction,
                        const std::string& version, const question::Changeovers& changeovers,
                        const question::Bands& bands, const question::FaultTable& faults) {
  Page page;
  const ReportMatter matter{build, prediction, changeovers, bands, &faults};
  for (const auto write :
       {write_verdict, write_findings, write_story, write_changeover, write_bands, write_service,
        write_events, write_extremes, write_standby, write_energy, write_set_points, write_values,
        write_wires, write_faults, write_coordination, write_kept, write_limits, write_cautions}) {
    write(matter, page);
  }
  const std::string title = build.title.empty() ? "A supply without a title" : build.title;
  return html_document(page, {title, subtitle(build), foot(build, prediction, version)});
}

}  // namespace tideover::papers
