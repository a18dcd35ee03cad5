# Longtom: what there is to do. `make run` and `make test` install what is missing.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
MAKEFLAGS += --no-print-directory
.NOTPARALLEL:
.DEFAULT_GOAL := help

# One set of features for everything compiled for this machine, so that the tests and the
# builder of the site are compiled together, once.
HOST := --locked --features site
SITE := cargo run --quiet $(HOST) --bin site --

.PHONY: help run dev fast test bench screenshots icons \
        format lint native docs dist sizes journeys deny

help: ## this list
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/make \1	\2/p' $(MAKEFILE_LIST) | expand -t 20

run: dist ## build the release and serve it at http://localhost:8080
	@$(SITE) serve

dev: ## build quickly, serve at http://localhost:8081, again at each change
	@.ci/tools site $(SITE) dev

fast: ## native tests alone
	@.ci/tools fast bash -c 'if cargo nextest --version >/dev/null 2>&1; \
	    then cargo nextest run --locked; else cargo test --quiet --locked --tests; fi'
	@cargo test --quiet --locked --doc

test: format lint native docs deny dist sizes journeys ## everything CI runs
	@echo "All of it holds:"
	@grep -hE 'Summary|^test result' target/tests/native target/tests/examples
	@tail -n 1 target/tests/journeys

bench: dist ## timings: told, never asserted
	@.ci/tools page node e2e/bench.mjs
	@cargo build --quiet --locked --profile native --bin reckon
	@.ci/tools page node e2e/bench-record.mjs
	@.ci/tools page node e2e/bench-bed.mjs
	@.ci/tools page node e2e/bench-root-zone.mjs
	@target/native/reckon record measure --count 100000 --seed 1
	@target/native/reckon record fuzz --count 1000000 --seed 1
	@target/native/reckon fuzz mix --count 1000000 --seed 1
	@target/native/reckon fuzz mix --ranges --count 1000 --seed 1
	@target/native/reckon fuzz bed --check --count 1000000 --seed 1
	@target/native/reckon fuzz bed --answered --count 20000 --seed 1
	@target/native/reckon fuzz bed --ranges --answered --count 200 --seed 1
	@target/native/reckon fuzz root_zone --check --count 1000000 --seed 1
	@target/native/reckon fuzz root_zone --answered --count 20000 --seed 1
	@target/native/reckon fuzz root_zone --ranges --answered --count 200 --seed 1
	@target/native/reckon fuzz season --check --count 1000000 --seed 1
	@target/native/reckon fuzz season --ranges --answered --count 1000 --seed 1
	@target/native/reckon fuzz moving_on --check --count 1000000 --seed 1
	@target/native/reckon fuzz moving_on --answered --count 5000 --seed 1
	@target/native/reckon fuzz moving_on --ranges --answered --count 1000 --seed 1
	@mkdir -p target/tests
	@FLOW_SPEED=$(CURDIR)/target/tests/flow_speed.json cargo test --quiet --locked --profile native \
	    --test flow_speed -- --ignored --nocapture --test-threads 1
	@if python3 -c 'import numpy, scipy' 2>/dev/null; \
	    then python3 -W ignore tests/reference/flow_speed.py target/tests/flow_speed.json; \
	    else echo "There is no scipy here: the flow is not held to another solver."; fi
	@cargo test --locked --profile native --test tube_test -- --ignored --nocapture

screenshots: dist ## pictures for README and the manifest
	@.ci/tools page node e2e/screenshots.mjs

icons: ## PNG icons out of the drawings in public/icons
	@.ci/tools page node e2e/icons.mjs

# --- Steps of the above --------------------------------------------------------------

format:
	@.ci/tools test
	cargo fmt --check

lint:
	cargo clippy --quiet --locked --all-targets -- -D warnings
	cargo clippy --quiet $(HOST) --all-targets -- -D warnings
	.ci/wasm-clippy

native:
	@mkdir -p target/tests
	.ci/tools test cargo nextest run $(HOST) 2>&1 | tee target/tests/native
	cargo test --quiet $(HOST) --doc 2>&1 | tee target/tests/examples
	cargo run --quiet $(HOST) --bin reckon -- record fuzz --count 100000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz bed --check --count 100000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz bed --answered --count 2000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz root_zone --check --count 100000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz root_zone --answered --count 2000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz season --answered --count 1000 --seed 1
	cargo run --quiet $(HOST) --bin reckon -- fuzz moving_on --answered --count 1000 --seed 1

docs:
	RUSTDOCFLAGS='-D warnings' cargo doc --quiet $(HOST) --no-deps --document-private-items

dist:
	@.ci/tools site $(SITE) build

sizes:
	@$(SITE) sizes

journeys:
	@cargo build --quiet $(HOST) --bin site --bin reckon
	@mkdir -p target/tests
	cd e2e && ../.ci/tools page npx playwright test | tee ../target/tests/journeys

deny:
	.ci/tools test cargo deny --all-features --locked check bans licenses sources
	.ci/tools test .ci/advisories
