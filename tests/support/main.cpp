// main() of every test program. A filter that selects no test case is a failure: ctest calls each
// case by its name, and a name that the filter syntax cannot express must not pass unread.

#define DOCTEST_CONFIG_IMPLEMENT
#include <cstdlib>
#include <iostream>

#include <doctest/doctest.h>

namespace {

unsigned selected_cases = 0;

struct SelectionCounter : doctest::IReporter {
  explicit SelectionCounter(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override {}
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats& stats) override {
    selected_cases = stats.numTestCasesPassingFilters;
  }
  void test_case_start(const doctest::TestCaseData&) override {}
  void test_case_reenter(const doctest::TestCaseData&) override {}
  void test_case_end(const doctest::CurrentTestCaseStats&) override {}
  void test_case_exception(const doctest::TestCaseException&) override {}
  void subcase_start(const doctest::SubcaseSignature&) override {}
  void subcase_end() override {}
  void log_assert(const doctest::AssertData&) override {}
  void log_message(const doctest::MessageData&) override {}
  void test_case_skipped(const doctest::TestCaseData&) override {}
};

REGISTER_LISTENER("selection", 1, SelectionCounter);

}  // namespace

int main(int argc, char** argv) {
  doctest::Context context(argc, argv);
  const int result = context.run();
  if (context.shouldExit()) return result;
  if (selected_cases == 0) {
    std::cerr << "no test case matches the filter\n";
    return EXIT_FAILURE;
  }
  return result;
}
