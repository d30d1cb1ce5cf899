# Everything a person or the build machine does with Curvewright. Needed: Go, Node with
# npm, and make. The first run fetches what go.mod and web/ui/package-lock.json name;
# later ones work without a network.

LISTEN   ?= 127.0.0.1:8090
FUZZTIME ?= 30s
SEED     := $(shell date +%s)
CHECKS   ?= 300

# For a browser without a network: the largest the packed program may become.
OFFLINE_BYTES := 3500000

UI   := web/ui
NPM  := cd $(UI) && npm
GO_FILES   = find . -name '*.go' -not -path '*/node_modules/*'
GENERATED  = find . -name '*_templ.go' -not -path '*/node_modules/*' -exec cksum {} + | sort

# A version control system that refuses a borrowed folder must not stop the build.
export GOFLAGS += -buildvcs=false

# The drawn houses of the property tests are the same on every machine; make hunt draws others.
export RAPID_SEED ?= 1125

.PHONY: help demo test lint bench fuzz hunt build proof docs shots guide clean \
	ui format vet generated docs-current gotest offline uitest
.NOTPARALLEL:

help: ## list what can be made
	@echo "Curvewright: make ..."
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/  \1	\2/p' Makefile | expand -t 10

demo: build ## build everything and open an example house with its visit and log; ends with Ctrl-C
	@echo "Starting Curvewright with the example house (Ctrl-C ends it)."
	@bin/curvewright serve --open --demo --jobs build/demo.sqlite --listen $(LISTEN)

test: chromium build format vet generated docs-current gotest offline uitest ## all checks, as the build machine runs them
	@echo "All tests passed."

lint: format vet ## gofmt, go vet, staticcheck
	@echo "Looking for mistakes and dead code with staticcheck."
	@go tool staticcheck ./...

bench: ## measure the engine's speed
	@echo "Measuring."
	@go test -run '^$$' -bench . -benchmem ./...

fuzz: ## search for inputs that break a reader, FUZZTIME (30s) for each
	@$(GO_FILES) -name '*_test.go' -exec grep -H '^func Fuzz' {} + \
	| sed 's/^\(.*\)\/[^/]*:func \(Fuzz[A-Za-z0-9_]*\).*/\1 \2/' \
	| while read -r package target; do \
		echo "Searching with $$target in $$package for $(FUZZTIME)."; \
		go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) "$$package" || exit 1; \
	done

hunt: ## draw other cases for the property tests: SEED (the time of day) and CHECKS (300)
	@echo "Drawing $(CHECKS) cases for each property from seed $(SEED)."
	@RAPID_SEED=$(SEED) RAPID_CHECKS=$(CHECKS) go test -timeout 60m \
	$$($(GO_FILES) -name '*_test.go' -exec grep -l 'pgregory.net/rapid' {} + | xargs -n1 dirname | sort -u)

build: ui ## the one program, bin/curvewright
	@echo "Building bin/curvewright."
	@CGO_ENABLED=0 go build -trimpath -ldflags='-s -w' -o bin/curvewright ./cmd/curvewright

proof: ## check the engine against standards, handbooks and worked examples
	@go run ./cmd/curvewright proof

docs: ## write docs/proof.md, docs/job.schema.json and the field tables of docs/job.md anew
	@echo "Writing docs/proof.md, docs/job.schema.json and the tables of docs/job.md."
	@mkdir -p build
	@go run ./cmd/curvewright proof --format markdown > build/proof.md
	@cp build/proof.md docs/proof.md
	@go test ./job -count=1 -run 'StoredSchema|ListsAllFields' -update

shots: build chromium ## pictures of the pages
	@echo "Taking pictures of the pages."
	@export CHROME="$$(cat build/chromium)"; $(NPM) run --silent shots

guide: build chromium ## the pictures of docs/guide.md, from the running program
	@echo "Taking the pictures of the guide."
	@export CHROME="$$(cat build/chromium)"; $(NPM) run --silent guide

clean: ## remove what was built; what was fetched stays
	@echo "Removing what was built."
	@rm -rf bin build $(UI)/dist web/assets/dist

# ---- steps of the targets above ----

# npm ci begins by removing the folder, and the stamp with it.
$(UI)/node_modules/.stamp: $(UI)/package-lock.json
	@echo "Fetching the browser part's tools with npm."
	@$(NPM) ci --prefer-offline --no-audit --no-fund
	@touch $@

ui: $(UI)/node_modules/.stamp
	@echo "Building the browser part."
	@$(NPM) run --silent build

.PHONY: chromium
chromium:
	@echo "Looking for a browser to test with."
	@mkdir -p build
	@.ci/chromium > build/chromium
	@cat build/chromium

format:
	@echo "Checking that the Go code is formatted."
	@unformatted=$$($(GO_FILES) -exec gofmt -l {} +); \
	test -z "$$unformatted" || { echo "not formatted; run gofmt -w on:" $$unformatted; exit 1; }

vet:
	@echo "Checking the Go code with go vet."
	@go vet ./...

generated:
	@echo "Checking that the page code is generated from its present templates."
	@mkdir -p build; $(GENERATED) > build/generated.before
	@go generate ./web/... 2> build/generate.log || { cat build/generate.log; exit 1; }
	@$(GENERATED) | diff build/generated.before - \
	|| { echo "the generated page code was not current; it is now: look at it and keep it"; exit 1; }

docs-current: build
	@echo "Checking that docs/proof.md is current."
	@bin/curvewright proof --format markdown | diff docs/proof.md - \
	|| { echo "docs/proof.md is not current; run make docs and look at the difference"; exit 1; }

gotest:
	@echo "Running the Go tests."
	@go test ./...

offline:
	@echo "Building the engine for a browser: it must be small, and its sheet the same to the byte."
	@mkdir -p build
	@GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o build/offline.wasm ./internal/offline
	@size=$$(gzip -9 -c build/offline.wasm | wc -c); \
	echo "It packs to $$size bytes of $(OFFLINE_BYTES)."; test $$size -le $(OFFLINE_BYTES)
	@node "$$(go env GOROOT)/lib/wasm/wasm_exec_node.js" build/offline.wasm < examples/short-survey.yaml > build/offline.sheet
	@go run ./internal/offline < examples/short-survey.yaml > build/native.sheet
	@test "$$(go env GOARCH)" != amd64 || cmp build/offline.sheet build/native.sheet

uitest: build chromium
	@echo "Testing the pages in a browser."
	@export CHROME="$$(cat build/chromium)"; $(NPM) run --silent test
