// The fault table of a build on all cores.
#include "question/faults.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <stdexcept>
#include <string>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace {

using namespace tideover;

/// Time that all threads of this program have had a core.
double processor_s() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

double wall_s() {
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double>(now).count();
}

build::Build build_in(const std::string& folder) {
  auto sheet = build::read_sheet_file(folder, shelf::built_in_shelf());
  if (!sheet) throw std::runtime_error(base::show(sheet.problems()));
  return std::move(sheet).value();
}

}  // namespace

int main(int argc, char** argv) {
  const build::Build build =
      build_in(argc > 1 ? argv[1] : TIDEOVER_SOURCE_DIR "/examples/tide-hut");
  base::NoProgress nobody;
  const double wall_before_s = wall_s();
  const double processor_before_s = processor_s();
  const question::FaultTable table = question::fault_table(build, nobody);
  const double processor_took_s = processor_s() - processor_before_s;
  const double wall_took_s = wall_s() - wall_before_s;
  const auto followed = std::ranges::count_if(table.entries, [](const auto& entry) {
    return std::ranges::all_of(entry.effects,
                               [](const auto& effect) { return effect.judgement.was_followed; });
  });
  std::printf("fault table: %.4g s\n", wall_took_s);
  std::printf("fault table faults: %zu\n", table.entries.size());
  std::printf("fault table faults followed to the end: %td\n", followed);
  std::printf("fault table CPU: %.4g s\n", processor_took_s);
}
