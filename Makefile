# Crossgrain's two commands are `make demo` and `make test`. Each works alone in
# a fresh copy of this folder: on Debian and Ubuntu it installs what is missing
# (through sudo unless you are root); elsewhere it says what to install. Go
# itself, as new as go.mod asks for, must be there already.

# What a build needs, and what the tests need besides: two other solvers and an
# office to check answers with, and what reads PDF and shows pages. By their
# Debian names; npm and its package axe-core besides:
BUILD_NEEDS = gcc libc6-dev libglpk-dev
TEST_NEEDS  = glpk-utils coinor-cbc libreoffice-calc-nogui poppler-utils qpdf chromium
# The benchmark's peers, besides npm and its package highs.
BENCH_NEEDS = glpk-utils coinor-cbc

QUILT    = testdata/quilts/harbour-steps.yaml
WORKBOOK = bin/harbour-steps.xlsx

HIGHS_VERSION = 1.15.3
AXE_VERSION   = 4.14.1
STATICCHECK   = honnef.co/go/tools/cmd/staticcheck@v0.8.2

# Quick enough to run again under the race detector, and without the solver.
RACE_PACKAGES      = ./model ./pack/glpk ./yardage
NO_SOLVER_PACKAGES = ./model ./model/quiltfile ./pack/glpk

# Without a C compiler Go would quietly leave the solver out.
export CGO_ENABLED = 1

# Homebrew's folder is not one where compilers look by themselves.
ifeq ($(shell uname -s),Darwin)
export CPATH        := $(shell brew --prefix)/include
export LIBRARY_PATH := $(shell brew --prefix)/lib
endif

.PHONY: build demo test check fuzz bench clean build-needs test-needs bench-needs

build: build-needs
	go build -o bin/crossgrain ./cmd/crossgrain

demo: build
	bin/crossgrain plan $(QUILT)
	bin/crossgrain export $(QUILT) --to $(WORKBOOK) --replace

test: test-needs
	go test ./...
	go test -race $(RACE_PACKAGES)

check: build-needs
	@echo "gofmt -l ."; unformatted=$$(gofmt -l .); \
	[ -z "$$unformatted" ] || { echo "not formatted by gofmt:"; echo "$$unformatted"; exit 1; }
	go vet ./...
	go run $(STATICCHECK) ./...
	go test -count=1 -run '^TestLayers' ./cmd/crossgrain
	CGO_ENABLED=0 go build -o bin/crossgrain-without-solver ./cmd/crossgrain
	@said=$$(bin/crossgrain-without-solver plan $(QUILT) 2>&1 >bin/without-solver.out); \
	rm -f bin/crossgrain-without-solver bin/without-solver.out; echo "$$said"; \
	echo "$$said" | grep -q 'not in this build' || { echo "a build without cgo must say that the solver is not in it"; exit 1; }
	CGO_ENABLED=0 go test $(NO_SOLVER_PACKAGES)

# Every fuzz test for a moment; FUZZ_TIME=10m for longer.
FUZZ_TIME = 10s
fuzz: build-needs
	@grep -rl --include='*_test.go' '^func Fuzz' . | while read -r file; do \
		for name in $$(sed -n 's/^func \(Fuzz[A-Za-z0-9_]*\).*/\1/p' "$$file"); do \
			echo "$$name in $$file"; \
			go test -run '^$$' -fuzz "^$$name\$$" -fuzztime $(FUZZ_TIME) "$$(dirname "$$file")" || exit 1; \
		done || exit 1; \
	done

# The series of runs that DEVELOPERS.md tells of, or one run of a SET with
# further flags in ARGS. The times bound each instance; with these the series
# takes an hour at most.
SET          =
TIME         = 10s
ARGS         =
CLASSIC_TIME = 15s
PEER_TIME    = 20s
PEER_SAMPLE  = 6
packbench    = bin/packbench --time
bench: bench-needs
	go build -o bin/packbench ./cmd/packbench
	@if [ -n "$(SET)" ]; then $(packbench) $(TIME) --set $(SET) $(ARGS); exit; fi; \
	status=0; \
	run() { echo; $(packbench) "$$@" || status=1; echo; }; \
	run 1s --set quilts-a; \
	run $(TIME) --set quilts-a; \
	run $(TIME) --set quilts-a --style nested; \
	run $(TIME) --set quilts-b; \
	run $(TIME) --set quilts-c; \
	run $(CLASSIC_TIME) --set classic; \
	run $(CLASSIC_TIME) --set classic --turned; \
	run $(TIME) --set twelve; \
	run $(PEER_TIME) --set quilts-a --sample $(PEER_SAMPLE) \
		--peers glpsol,cbc,highs --models arc-flow --peer-time $(PEER_TIME); \
	exit $$status

clean:
	rm -rf bin

# $(call install,PACKAGES) installs Debian packages that are missing, in a shell
# that goes on if all is well. An update that fails (one source of many may be
# away) is no reason to stop before the install has been tried.
install = \
	missing=; \
	for package in $(1); do \
		dpkg -s $$package 2>/dev/null | grep -q '^Status: .* ok installed$$' || missing="$$missing $$package"; \
	done; \
	[ -z "$$missing" ] || { \
		as_root=; [ "$$(id -u)" -eq 0 ] || as_root=sudo; \
		echo "installing$$missing"; \
		$$as_root apt-get -qq update || echo "going on with the package lists that are here"; \
		$$as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 \
			install -y --no-install-recommends $$missing >/dev/null || \
		{ echo "could not install them; as root: apt-get install$$missing"; exit 1; }; \
	}

on_debian = command -v apt-get >/dev/null && command -v dpkg >/dev/null

build-needs:
	@command -v go >/dev/null || { echo "Go is needed, as new as go.mod asks for: https://go.dev/dl"; exit 1; }
	@if $(on_debian); then $(call install,$(BUILD_NEEDS)); \
	elif ! echo '#include <glpk.h>' | cc -E - >/dev/null 2>&1; then \
		echo "A C compiler and the GLPK library are needed:"; \
		echo "  Fedora:   sudo dnf install gcc glpk-devel"; \
		echo "  Homebrew: brew install glpk"; \
		exit 1; \
	fi

test-needs: build-needs
	@if $(on_debian); then \
		npm=; command -v npm >/dev/null || npm=npm; \
		$(call install,$(TEST_NEEDS) $$npm); \
	else for command in glpsol cbc soffice pdftotext qpdf chromium npm; do \
		command -v $$command >/dev/null || { \
			echo "The tests need $$command:"; \
			echo "  Fedora:   sudo dnf install glpk-utils coin-or-Cbc libreoffice-calc poppler-utils qpdf chromium nodejs-npm"; \
			echo "  Homebrew: brew install glpk cbc poppler qpdf node && brew install --cask libreoffice chromium"; \
			exit 1; \
		}; \
	done; fi
	@grep -qs '"version": "$(AXE_VERSION)"' bin/axe/node_modules/axe-core/package.json || { \
		echo "installing axe-core $(AXE_VERSION)"; \
		npm install --silent --no-audit --no-fund --prefix bin/axe axe-core@$(AXE_VERSION); \
	}

bench-needs: build-needs
	@if $(on_debian); then \
		npm=; command -v npm >/dev/null || npm=npm; \
		$(call install,$(BENCH_NEEDS) $$npm); \
	else for command in glpsol cbc npm; do \
		command -v $$command >/dev/null || { \
			echo "The benchmark needs $$command:"; \
			echo "  Fedora:   sudo dnf install glpk-utils coin-or-Cbc nodejs-npm"; \
			echo "  Homebrew: brew install glpk cbc node"; \
			exit 1; \
		}; \
	done; fi
	@grep -qs '"version": "$(HIGHS_VERSION)"' bin/highs/node_modules/highs/package.json || { \
		echo "installing highs $(HIGHS_VERSION)"; \
		npm install --silent --no-audit --no-fund --prefix bin/highs highs@$(HIGHS_VERSION); \
	}
