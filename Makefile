# From a bare Debian 12 with the Rust toolchain: "make demo" makes a pack of the invented island, "make
# test" runs every check. Both install what is missing and ask for nothing. The first build takes a quarter
# to half an hour on two cores, most of it C and C++.

# Where the demo's pack is written.
OUT ?= demo-out

SUDO := $(shell [ "$$(id -u)" = 0 ] || echo sudo)
APT := $(SUDO) env DEBIAN_FRONTEND=noninteractive apt-get -y -qq

# Python libraries that the tests compare coordinates with and look at pages with, outside the clone.
TEST_TOOLS := $(or $(STREW_TEST_TOOLS),$(HOME)/.cache/strew-test-tools)

.PHONY: help demo test lint demo-data bench bench-quick bench-tools build-tools test-tools fuzz licences

help:
	@echo "make demo       build, and write the public pack of the invented island to $(OUT)/public"
	@echo "make test       run every test"
	@echo "make lint       formatting, lints, documentation"
	@echo "make bench      time the numeric work beside general-purpose libraries (target/bench/ratios.json)"
	@echo "make bench-quick  the same on a tenth of the data, within five minutes"
	@echo "make fuzz       torn texts to the readers of places, for ten minutes"
	@echo "make licences   gather the notices of all that is linked, after a change of dependencies"
	@echo "make demo-data  invent the island and its registers again, byte for byte"

demo: build-tools
	cargo build --release
	rm -rf $(OUT)/public
	mkdir -p $(OUT)
	cargo run --release --quiet -- report demo-findspots/hernsey/study.toml --out $(OUT)/public
	@echo
	@echo "The pack is in $(OUT)/public: open $(OUT)/public/report.html"

test: build-tools test-tools
	cargo test --release --workspace

lint: build-tools
	cargo fmt --all --check
	cargo clippy --release --workspace --all-targets -- -D warnings
	cargo check --release --locked --manifest-path fuzz/Cargo.toml
	RUSTDOCFLAGS="-D warnings" cargo doc --release --workspace --no-deps --document-private-items

# The lists of notices in docs/licences, from the sources that cargo has fetched.
licences:
	cargo fetch --locked
	python3 docs/licences/gather.py

# Texts that break a promise are named at the end, and kept in ~/.cache/strew-fuzz/found. Ten minutes unless
# STREW_FUZZ_SECONDS says otherwise.
fuzz: build-tools
	fuzz/run.sh $(or $(STREW_FUZZ_SECONDS),600)

demo-data: build-tools
	cargo run --release --quiet --package hernsey-maker -- .

# Peers are installed under target/bench; the programs stand where cargo says, whatever its target folder.
bench bench-quick: build-tools bench-tools
	cargo build --release --bin strew --bench arrays --bench surfaces
	@built="$$(cargo build --release --bin strew --bench arrays --bench surfaces --message-format=json 2>/dev/null \
		| sed -n 's/.*"executable":"\([^"]*\)".*/\1/p')"; \
	python3 benches/peers/bench.py "$$(echo "$$built" | grep '/strew$$')" "$$(echo "$$built" | grep '/arrays-')" \
		"$$(echo "$$built" | grep '/surfaces-')" target/bench $(if $(filter bench-quick,$@),--quick)

bench-tools: test-tools
	@command -v python3 >/dev/null && python3 -m pip --version >/dev/null 2>&1 || \
		{ $(APT) update && $(APT) install --no-install-recommends python3 python3-pip; }

# What the build needs: a C and C++ compiler, make and cmake for GDAL and PROJ, the sqlite3 command for
# PROJ's database, certificates to fetch crates.
build-tools:
	@missing=""; \
	command -v g++ >/dev/null || missing="$$missing g++"; \
	command -v cmake >/dev/null || missing="$$missing cmake"; \
	command -v sqlite3 >/dev/null || missing="$$missing sqlite3"; \
	[ -e /etc/ssl/certs/ca-certificates.crt ] || missing="$$missing ca-certificates"; \
	[ -z "$$missing" ] || { echo "installing:$$missing"; $(APT) update && $(APT) install --no-install-recommends $$missing; }

# R and what densities are checked against and timed beside.
R_TOOLS := r-base-core r-cran-spatstat r-cran-spatstat.explore r-cran-spatstat.data r-cran-sparr r-cran-ks

# What the tests look at packs with: a browser for the pages, Java for the checker of their HTML, poppler for
# the PDFs, strace for the files that a run writes; the libraries that tests/reference works with, in versions
# that are pinned; and R for the densities.
test-tools:
	@missing=""; \
	command -v chromium >/dev/null || missing="$$missing chromium"; \
	command -v java >/dev/null || missing="$$missing default-jre-headless"; \
	command -v pdftotext >/dev/null || missing="$$missing poppler-utils"; \
	command -v strace >/dev/null || missing="$$missing strace"; \
	python3 -c "import venv, ensurepip" 2>/dev/null || missing="$$missing python3-venv"; \
	Rscript -e 'for (p in c("spatstat.explore", "spatstat.data", "sparr", "ks")) stopifnot(requireNamespace(p))' \
		>/dev/null 2>&1 || missing="$$missing $(R_TOOLS)"; \
	[ -z "$$missing" ] || { echo "installing:$$missing"; $(APT) update && $(APT) install --no-install-recommends $$missing; }
	@{ cmp -s tests/reference/requirements.txt $(TEST_TOOLS)/requirements.txt && \
		cmp -s tests/reference/bundles.txt $(TEST_TOOLS)/bundles.txt; } || { \
		python3 -m venv $(TEST_TOOLS) && \
		$(TEST_TOOLS)/bin/pip install --quiet --disable-pip-version-check -r tests/reference/requirements.txt && \
		$(TEST_TOOLS)/bin/pip install --quiet --disable-pip-version-check --no-deps -r tests/reference/bundles.txt && \
		cp tests/reference/requirements.txt tests/reference/bundles.txt $(TEST_TOOLS)/; }
