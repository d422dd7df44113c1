#!/usr/bin/env bash
# Gives the same drawn calendars to this project's scheduler and to general mixed-integer solvers (HiGHS, and SCIP and CP-SAT
# of OR-Tools), one after the other, and prints three tables: ours on every drawn fleet, theirs on four of them, and on all what
# CP-SAT still gains when it starts at ours. Needs python3 with venv, and pip. See docs/methods/calendar.md.
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

row() { "$work/python/bin/python" src/bench/beside-solvers.py "$1" "$seconds" "$work/$2.mps"; }
head() {
  echo
  echo "| fleet | solver | seconds | cost | at least |"
  echo "| --- | --- | ---: | ---: | ---: |"
}

head
for fleet in fleet-500-1 fleet-500-2 fleet-90-1 fleet-90-2; do
  for solver in HiGHS SCIP CP-SAT; do
    row "$solver" "$fleet"
  done
done

head
for pumps in 500 90; do
  for number in 1 2 3 4 5; do
    row CP-SAT-from-ours "fleet-$pumps-$number"
  done
done
