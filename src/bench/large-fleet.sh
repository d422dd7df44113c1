#!/usr/bin/env bash
# Reads a fleet of a million rebuilds and five million findings, and one a tenth of that: lives and pooled fits, each
# command in its own process with a heap that keeps the process under 4 GB. Then R does of it what it can: reads the same
# two files, builds the lives by position, and fits a Weibull by component. Prints one table; fails when a command takes
# more than 60 s or 4 GB, or ten times the rows take more than twelve times as long. See docs/performance.md.
#
#   src/bench/large-fleet.sh [REBUILDS]     1,000,000 when no number is given
set -euo pipefail
cd "$(dirname "$0")/../.."

most=${1:-1000000}
few=$((most / 10))
work=target/large-fleet
mkdir -p "$work"
if ! command -v Rscript >/dev/null || [ ! -x /usr/bin/time ]; then
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq r-base-core r-cran-survival r-cran-data.table time
fi
if ! Rscript -e 'library(survival); library(data.table)' >/dev/null 2>&1; then
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq r-cran-survival r-cran-data.table
fi
mvn -q -B -ntp -Pbench test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath"
path=target/classes:target/bench-classes:$(cat "$work/classpath")
for n in $few $most; do
  java -cp "$path" org.vaneward.bench.LargeFleet "$work/fleet-$n" "$n" sample-fleet/fleet.json
done

: >"$work/times"
timed() { # job, rebuilds, command...
  local job=$1 n=$2
  shift 2
  /usr/bin/time -f "$job $n %e %M" -a -o "$work/times" "$@" >"$work/$job-$n.out" 2>"$work/$job-$n.err"
}
for n in $few $most; do
  timed lives "$n" java -Xmx3500m -cp "$path" org.vaneward.cli.Main lives "$work/fleet-$n" --format csv --out "$work/lives-$n.csv"
  timed fit-pooled "$n" java -Xmx3500m -cp "$path" org.vaneward.cli.Main fit "$work/fleet-$n" --pooled
  timed R "$n" Rscript src/bench/large-fleet.R "$work/fleet-$n"
done

echo "R: $(head -1 "$work/R-$most.out")"
awk -v most="$most" '
  BEGIN { print "| job | rebuilds | s | MB |"; print "| --- | ---: | ---: | ---: |" }
  {
    printf "| %s | %d | %.1f | %d |\n", $1, $2, $3, $4 / 1000
    if ($2 < most) few[$1] = $3; else many[$1] = $3
    if ($1 != "R" && ($3 > 60 || $4 > 4000000)) { print $1 " on " $2 " rebuilds: more than 60 s or 4 GB"; bad = 1 }
  }
  END {
    for (job in many) {
      printf "%s: ten times the rows took %.1f times as long\n", job, many[job] / few[job]
      if (job != "R" && many[job] > 12 * few[job]) { print job ": more than twelve times"; bad = 1 }
    }
    exit bad
  }' "$work/times"
