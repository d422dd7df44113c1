#!/usr/bin/env bash
# Times the same jobs on the same lives in R (package survival) and here, each program in its own process, one after the
# other, and prints one table. Fails when either gives another answer than the one on record. See docs/performance.md.
#
#   src/bench/beside-r.sh [LIVES.csv]     the lives are drawn (fixed seed) when no file is named
set -euo pipefail
cd "$(dirname "$0")/../.."

references=src/test/resources/reference
work=target/beside-r
sizes="10000 100000 1000000"
jobs="weibull_fit weibull_fit_profile weibull_regression_12_levels kaplan_meier"

mkdir -p "$work"
if ! Rscript -e 'library(survival)' >/dev/null 2>&1; then
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq r-base-core r-cran-survival
fi
mvn -q -B -ntp -Pbench test-compile

lives=${1:-$work/lives.csv}
if [ -f "$lives" ]; then
  Rscript "$references/bench_baseline.R" "$lives" >"$work/r-times.csv"
else
  Rscript "$references/bench_baseline.R" --write "$lives" >"$work/r-times.csv"
fi

ours() {
  mvn -q -B -ntp -Pbench exec:exec -Dbench.main=org.vaneward.bench.BesideR -Dbench.args="$lives $1 $2" |
    grep -o "$1,[0-9].*"
}
: >"$work/our-times.csv"
for job in $jobs; do
  for n in $sizes; do
    ours "$job" "$n" >>"$work/our-times.csv"
  done
done
ours bootstrap_2000_refits_of_50 2000 >>"$work/our-times.csv"

# BASELINE.md's table of answers, as job,n,answers.
awk -F'|' '/^\| *[0-9 ]+\|.*\|.*\|.*\|.*\|.*\|/ && NF == 10 {
  for (i = 2; i < NF; i++) gsub(/ /, "", $i)
  print "weibull_fit," $2 "," $4 "," $5 "," $6
  print "weibull_regression_12_levels," $2 "," $7 "," $8
  print "kaplan_meier," $2 "," $9
}' "$references/BASELINE.md" >"$work/record.csv"
Rscript src/bench/answers.R "$lives" >"$work/r-answers.csv"

# Times are in columns 3 to 5 of ours; what follows are answers.
cut -d, -f1,2,6- "$work/our-times.csv" | sed 's/^weibull_fit_profile/weibull_fit/' >"$work/our-answers.csv"
awk -F, '
  function far(a, b) { d = a - b; return (d < 0 ? -d : d) > (a > 1000 || a < -1000 ? 1.5e-6 : 1.5e-9) }
  FNR == NR { record[$1 "," $2] = $0; next }
  ($1 "," $2) in record {
    split(record[$1 "," $2], want, ",")
    for (i = 3; i <= NF; i++) if (far($i, want[i])) { print FILENAME ": " $0 " where " record[$1 "," $2] " is right"; bad = 1 }
    seen[FILENAME]++
  }
  END {
    for (i = 2; i < ARGC; i++) if (!seen[ARGV[i]]) { print ARGV[i] ": no answers"; bad = 1 }
    exit bad
  }' "$work/record.csv" "$work/r-answers.csv" "$work/our-answers.csv"

awk -F, '
  FNR == NR { r[$1 "," $2] = $3; next }
  FNR == 1 {
    print "| job | n | R, s | cold, s | best, s | median, s | R / cold | R / median | R / best |"
    print "| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |"
  }
  {
    as = $1; sub(/_profile$/, "", as); t = r[as "," $2]
    printf "| %s | %d | %.3f | %.4f | %.5f | %.5f | %.1f | %.0f | %.0f |\n", $1, $2, t, $3, $4, $5, t / $3, t / $5, t / $4
  }' "$work/r-times.csv" "$work/our-times.csv"
echo "The answers on record were given by both."
