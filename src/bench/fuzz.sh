#!/usr/bin/env bash
# Fuzzes every reader, guided by coverage, and prints for each how many inputs were tried and how much was covered.
# Fails when a reader ended in anything but the rows or one clear line, or took longer than ten seconds; the input
# that did it is then target/fuzz/NAME-crash-… (or -timeout-…).
#
#   src/bench/fuzz.sh [SECONDS_PER_READER] [NAME...]     after mvn test-compile; 20 seconds and every reader unless told
#
# A reader is called as its corpus under src/test/resources/fuzz, where a part of the name is enough. What is found
# on the way is kept in target/fuzz/corpus, so that the next run begins where this one ended.
set -euo pipefail
cd "$(dirname "$0")/../.."

seconds=${1:-20}
shift || true
corpora=src/test/resources/fuzz
work=target/fuzz
# What is counted as covered: the readers and the libraries that parse for them, down to tokens.
parsers="org.vaneward.**:de.siegmar.fastcsv.**:org.dhatim.fastexcel.reader.**:com.fasterxml.jackson.core.**:com.fasterxml.aalto.**"
mkdir -p "$work"
# In memory where the system has such a place: each input is written to a file.
scratch=$(mktemp -d -p /dev/shm 2>/dev/null || mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mvn -q -B -ntp -Pfuzz exec:exec
classpath=$(cat "$work/classpath")

chosen() {
  local name=$1 part
  shift
  test $# -eq 0 && return 0
  for part in "$@"; do
    [[ $name == *"$part"* ]] && return 0
  done
  return 1
}

summary="$work/summary"
: >"$summary"
found=0
for corpus in "$corpora"/*/; do
  target=$(basename "$corpus")
  name=${target##*.}
  chosen "$name" "$@" || continue
  kept="$work/corpus/$target"
  log="$work/$name.log"
  mkdir -p "$kept"
  ended=ok
  java -Xmx1g -Djava.io.tmpdir="$scratch" -cp "$classpath" com.code_intelligence.jazzer.Jazzer \
    --target_class=org.vaneward.fuzz.Fuzzing --target_args="$target $corpus" \
    --instrumentation_includes="$parsers" --instrumentation_excludes="org.vaneward.fuzz.**" \
    --reproducer_path="$work" -artifact_prefix="$work/$name-" -dict=src/test/resources/fuzz.dict \
    -max_total_time="$seconds" -timeout=10 -rss_limit_mb=4000 -max_len=8192 -print_final_stats=1 \
    "$kept" "$corpus" >"$log" 2>&1 || ended="FAILED, see $log"
  test "$ended" = ok || { found=1; grep -aE -A12 '^== |ERROR' "$log" | head -40 || true; }
  # The second pattern is the coverage of the last line of progress: edges reached.
  tried=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log" | tail -1)
  covered=$(grep -aoE 'cov: [0-9]+' "$log" | tail -1 | cut -d' ' -f2 || true)
  printf '%-20s %10s inputs, %6s edges covered, %s\n' "$name" "${tried:-?}" "${covered:-?}" "$ended" | tee -a "$summary"
done
printf '\n'
cat "$summary"
exit "$found"
