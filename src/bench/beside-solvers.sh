#!/usr/bin/env bash
# Gives the same drawn calendars to this project's scheduler and to general mixed-integer solvers (HiGHS, and SCIP and CP-SAT
# of OR-Tools), one after the other, and prints two tables: ours on every drawn fleet, theirs on four of them. Needs python3
# with venv, and pip. See docs/methods/calendar.md.
#
#   src/bench/beside-solvers.sh [SECONDS]     for each general solver and fleet; 30 unless said
set -euo pipefail
cd "$(dirname "$0")/../.."

seconds=${1:-30}
work=target/beside-solvers
mkdir -p "$work"
if [ ! -x "$work/python/bin/python" ]; then
  python3 -m venv "$work/python"
  "$work/python/bin/pip" install --quiet "highspy==1.15.*" "ortools==9.15.*"
fi
mvn -q -B -ntp test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath"
java -cp "target/test-classes:target/classes:$(cat "$work/classpath")" org.vaneward.study.CalendarStudy "$work"

echo
echo "| fleet | solver | seconds | cost | at least |"
echo "| --- | --- | ---: | ---: | ---: |"
for fleet in fleet-500-1 fleet-500-2 fleet-90-1 fleet-90-2; do
  for solver in HiGHS SCIP CP-SAT; do
    "$work/python/bin/python" src/bench/beside-solvers.py "$solver" "$seconds" "$work/$fleet.mps"
  done
done
