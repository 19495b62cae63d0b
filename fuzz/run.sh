#!/bin/sh
# Builds the target and runs it: run.sh SECONDS [WORKERS]. Texts that break a promise are left in
# $STREW_FUZZ or ~/.cache/strew-fuzz, where the corpus that it grows is kept too.
set -eu
cd "$(dirname "$0")"
seconds="${1:-600}"
workers="${2:-1}"
folder="${STREW_FUZZ:-$HOME/.cache/strew-fuzz}"
export CARGO_TARGET_DIR="${CARGO_TARGET_DIR:-$folder/target}"
mkdir -p "$folder/corpus" "$folder/found"

# What coverage guidance needs. In RUSTFLAGS, in place of the workspace's: libFuzzer looks symbols up while
# it runs, which a program without shared libraries cannot.
RUSTFLAGS="--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
-Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
-Cllvm-args=-sanitizer-coverage-trace-compares" cargo build --release
program="$(find "$CARGO_TARGET_DIR" -path '*release/notation' -type f | head -n 1)"

# One file a line of the committed corpus.
cat ../tests/corpus/notation/*.txt | while IFS= read -r line; do
    printf '%s' "$line" >"$folder/corpus/$(printf '%s' "$line" | sha1sum | cut -c1-16)"
done
cd "$folder"
exec nice -n 19 "$program" corpus -max_len=80 -max_total_time="$seconds" -fork="$workers" -ignore_crashes=1 \
    -artifact_prefix=found/
