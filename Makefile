# The commands of the house. Each can be repeated; each says what it does while it does it.
# `make run` and `make test` share one build tree, so that the library is compiled once.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory
JOBS ?= $(shell nproc)
EXAMPLE ?= examples/tide-hut
FUZZ_SECONDS ?= 600

setup = @scripts/setup.sh
stage = @scripts/stage.sh
# The runner's output without a line for each start and each pass; the whole lies in the build tree.
only_telling = grep --line-buffered -Ev '^ *Start +[0-9]+: | Passed +[0-9.]+ sec$$|^Test project '

.PHONY: help run test deep speed package install format clean
.PHONY: asan tsan tidy fuzz coverage headers format-check program

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## /  make \1@/p' Makefile | column -t -s @

program:
	$(setup) run web
	$(stage) "configure" cmake --preset release -DTIDEOVER_TESTS=OFF -DTIDEOVER_SPEED=OFF
	$(stage) "build" cmake --build --preset release --target tideover

run: program ## install what is needed, build, and judge the example build
	@build/release/tideover report $(EXAMPLE)

test: ## install what is needed, build, and run every test
	$(setup) run test web
	$(stage) "configure" cmake --preset release
	$(stage) "build" cmake --build --preset release
	@ctest --preset release --parallel $(JOBS) | $(only_telling)

deep: ## what takes longer: sanitizers, clang-tidy, fuzzing, coverage; each to its end
	@scripts/deep.sh format-check headers asan tsan tidy fuzz coverage

format-check: ## fail on a file that clang-format would change
	$(setup) deep
	@scripts/format.sh check

headers: ## compile every header by itself
	$(setup) run test
	$(stage) "configure dev" cmake --preset dev
	$(stage) "headers" cmake --build --preset dev --target all_verify_interface_header_sets

asan tsan: ## the tests under sanitizers
	$(setup) run test deep
	$(stage) "configure $@" cmake --preset $@
	$(stage) "build $@" cmake --build --preset $@
	$(stage) "test $@" ctest --preset $@ --parallel $(JOBS)

tidy: ## clang-tidy over the library and the program
	$(setup) run deep
	$(stage) "configure tidy" cmake --preset tidy
	$(stage) "tidy" cmake --build --preset tidy -- -k 0

fuzz: ## FUZZ_SECONDS of fuzzing, shared over the targets
	$(setup) run deep
	$(stage) "configure fuzz" cmake --preset fuzz
	$(stage) "build fuzz" cmake --build --preset fuzz
	@scripts/fuzz.sh build/fuzz $(FUZZ_SECONDS)

coverage: ## lines of src/ that the tests reach; fails below 90 %
	$(setup) run test deep
	$(stage) "configure coverage" cmake --preset coverage
	$(stage) "build coverage" cmake --build --preset coverage
	@find build/coverage -name '*.gcda' -delete
	$(stage) "test coverage" ctest --preset coverage --parallel $(JOBS)
	@scripts/coverage.sh build/coverage 90

speed: ## every benchmark, one figure a line
	$(setup) run test
	@scripts/stage.sh "configure" cmake --preset release >&2
	@scripts/stage.sh "build" cmake --build --preset release >&2
	@scripts/speed.sh build/release/speed

package: ## the .deb, in build/release/package
	$(setup) run package web
	$(stage) "configure" cmake --preset release -DTIDEOVER_TESTS=OFF -DTIDEOVER_SPEED=OFF
	$(stage) "build" cmake --build --preset release
	$(stage) "package" cpack --config build/release/CPackConfig.cmake
	@ls build/release/package/*.deb

install: program ## install under PREFIX (default /usr/local)
	@cmake --install build/release --component program --prefix $(or $(PREFIX),/usr/local)

format: ## let clang-format write every source
	$(setup) deep
	@scripts/format.sh write

clean: ## remove everything that was built
	@rm -rf build
