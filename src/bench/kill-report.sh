#!/usr/bin/env bash
# Kills a report (without history replayed, which writes nothing) at random moments, many times over, into one folder, and looks after each kill whether every file there
# under its final name is whole: the same bytes as in a report that ran to its end. Fails at the first that is not. At last a report runs to its end over what the kills left.
#
#   src/bench/kill-report.sh [TIMES] [FLEET]     100 times on docs/example-fleet unless told otherwise
set -euo pipefail
cd "$(dirname "$0")/../.."

times=${1:-100}
fleet=${2:-docs/example-fleet}
jar=target/vaneward.jar
work=target/killed
rm -rf "$work"
mkdir -p "$work"
RANDOM=20260701

began=$(date +%s%N)
java -jar "$jar" report "$fleet" --no-backtest --out "$work/whole" --quiet
took=$((($(date +%s%N) - began) / 1000000))
found=0
for ((i = 1; i <= times; i++)); do
  # Into nothing, and over an old report, in turn; late rather than early, since files are written at the end.
  rm -rf "$work/cut"
  if ((i % 2 == 0)); then cp -r "$work/whole" "$work/cut"; fi
  java -jar "$jar" report "$fleet" --no-backtest --out "$work/cut" --quiet &
  pid=$!
  sleep "$(awk -v ms="$took" -v r="$RANDOM" 'BEGIN { printf "%.3f", ms * (0.4 + 0.65 * r / 32768) / 1000 }')"
  kill -KILL "$pid" 2>/dev/null || true
  wait "$pid" 2>/dev/null || true
  while IFS= read -r file; do
    found=$((found + 1))
    cmp -s "$work/cut/$file" "$work/whole/$file" || { echo "kill $i: $file is not whole"; exit 1; }
  done < <(test -d "$work/cut" && cd "$work/cut" && find . -type f ! -name '.*.tmp' ! -name .being-written)
done
# A run after all the kills clears away what they left, and is whole.
java -jar "$jar" report "$fleet" --no-backtest --out "$work/cut" --quiet
diff -r "$work/cut" "$work/whole"
test "$found" -gt 0 || { echo "no kill came late enough to find a file"; exit 1; }
echo "$times kills, $found files under their final names, all whole"
