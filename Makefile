# From a bare Debian 12 with the Rust toolchain: "make demo" makes a pack of the invented island, "make
# test" runs every check. Both install what is missing and ask for nothing. The first build takes ten to
# twenty minutes on two cores, most of it C and C++.

# Where the demo's pack is written.
OUT ?= demo-out

SUDO := $(shell [ "$$(id -u)" = 0 ] || echo sudo)
APT := $(SUDO) env DEBIAN_FRONTEND=noninteractive apt-get -y -qq

.PHONY: help demo test lint demo-data build-tools test-tools

help:
	@echo "make demo       build, and write the public pack of the invented island to $(OUT)/public"
	@echo "make test       run every test"
	@echo "make lint       formatting, lints, documentation"
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
	RUSTDOCFLAGS="-D warnings" cargo doc --release --workspace --no-deps --document-private-items

demo-data: build-tools
	cargo run --release --quiet --package hernsey-maker -- .

# What the build needs: a C and C++ compiler, make and cmake for GDAL and PROJ, the sqlite3 command for
# PROJ's database, certificates to fetch crates.
build-tools:
	@missing=""; \
	command -v g++ >/dev/null || missing="$$missing g++"; \
	command -v cmake >/dev/null || missing="$$missing cmake"; \
	command -v sqlite3 >/dev/null || missing="$$missing sqlite3"; \
	[ -e /etc/ssl/certs/ca-certificates.crt ] || missing="$$missing ca-certificates"; \
	[ -z "$$missing" ] || { echo "installing:$$missing"; $(APT) update && $(APT) install --no-install-recommends $$missing; }

# What the tests look at packs with: a browser for the pages, poppler for the PDFs.
test-tools:
	@missing=""; \
	command -v chromium >/dev/null || missing="$$missing chromium"; \
	command -v pdftotext >/dev/null || missing="$$missing poppler-utils"; \
	[ -z "$$missing" ] || { echo "installing:$$missing"; $(APT) update && $(APT) install --no-install-recommends $$missing; }
