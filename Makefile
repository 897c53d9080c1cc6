# The tasks of this project, for people and for .ci/run alike. Needs only Go.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
GO ?= go

# The packages that open no file, so that they build for a browser too.
CORE := ./units ./geom ./density ./takeoff ./rig ./sling ./lift

# Seconds that all fuzz targets share.
FUZZ_SECONDS ?= 600

# The packages whose tests know -update: found by the flag's definition.
GOLDEN = $(shell grep -rlE --include='*_test.go' 'flag.Bool."update"' . | xargs -r -n1 dirname | sort -u)

.PHONY: build test lint fmt-check vet staticcheck vectors wasm fuzz bench golden pictures cover release

build: ## the command, as bin/plumbhook
	$(GO) build -o bin/plumbhook ./cmd/plumbhook

test: ## every test
	$(GO) test ./...

lint: fmt-check vet staticcheck ## what must be clean before a commit

fmt-check:
	@files=$$(gofmt -l .); [ -z "$$files" ] || { echo "not gofmt-ed (mend with gofmt -w):"; echo "$$files"; exit 1; }

vet:
	$(GO) vet ./...

staticcheck:
	$(GO) tool staticcheck ./...

# Needs amd64 and an experiment of Go's; nothing else here does.
vectors: ## the sums over meshes for four triangles at a time, against the plain ones
	GOEXPERIMENT=simd $(GO) vet ./geom
	GOEXPERIMENT=simd $(GO) test ./geom -run 'RawSums|Measure|TwoWays|FarFrom'

wasm: ## the core packages for a browser: they must need no machine
	GOOS=js GOARCH=wasm $(GO) build $(CORE)

fuzz: ## every fuzz target; FUZZ_SECONDS=120 for all of them together
	.ci/fuzz $(FUZZ_SECONDS)

release: ## the binaries of a release, into dist/
	.ci/release dist

bench: ## every benchmark, ten times, into bench.txt: compare two with benchstat
	$(GO) test -run='^$$' -bench=. -count=10 ./... | tee bench.txt

golden: ## rewrite the golden files; look at the difference before a commit
	$(GO) test $(GOLDEN) -update

pictures: ## rewrite docs/pictures from docs/loads; look at them before a commit
	$(GO) test ./cmd/plumbhook -run TestDocsPictures -update

cover: ## how much of each function the tests run
	$(GO) test -coverpkg=./... -coverprofile=cover.out ./...
	$(GO) tool cover -func=cover.out
