#include "cli/program.hpp"
#include "server/open_verb.hpp"

int main(int argc, char** argv) {
  return tideover::cli::run_program({argv + (argc > 0 ? 1 : 0), argv + argc},
                                    {tideover::server::open_verb()});
}
