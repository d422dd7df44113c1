#!/usr/bin/env bash
# Unpacks the zip somewhere else and uses what is in it as a person would: the launcher, by a link too, the manual, the
# completion; and reads the bill of materials and the licences.
#
#   src/dist/try.sh target/vaneward-VERSION-dist.zip
set -euo pipefail

zip=$(realpath "$1")
if ! command -v unzip >/dev/null; then
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq unzip
fi
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
cd "$place"
unzip -q "$zip"
home=$(echo "$place"/vaneward-*)

fail() {
  echo "the zip: $*" >&2
  exit 1
}

mkdir "$place/a folder on the path"
ln -s "$home/bin/vaneward" "$place/a folder on the path/vaneward"
for start in "$home/bin/vaneward" "$place/a folder on the path/vaneward"; do
  said=$("$start" --version)
  [[ $said =~ ^vaneward\ [0-9.]+.*\(commit\ .* ]] || fail "--version says '$said'"
done
echo "$said"

code=0
"$home/bin/vaneward" check "$home/sample-fleet" --quiet --out "$place/check.txt" || code=$?
test "$code" -eq 1 || fail "check of the sample fleet ended with $code, not 1"
test -s "$place/check.txt" || fail "check wrote nothing"

code=0
JAVA_HOME=$place/nowhere "$home/bin/vaneward" --version 2>"$place/said" || code=$?
test "$code" -eq 2 || fail "without a Java it ended with $code, not 2"
grep -q 'needs Java 17' "$place/said" || fail "without a Java it said '$(cat "$place/said")'"

# Every command the program names has a page, and the shell completes it.
source "$home/completion/vaneward.bash"
commands=$("$home/bin/vaneward" --help | sed -n '/^Commands:/,/^Exit codes:/p' | sed -nE 's/^  ([a-z]+) .*/\1/p')
test "$(echo "$commands" | wc -l)" -ge 10 || fail "--help names few commands: $commands"
for command in $commands; do
  page="$home/man/man1/vaneward-$command.1"
  grep -q '^\.SH "OPTIONS"' "$page" || fail "no manual page of $command"
  COMP_WORDS=(vaneward "${command:0:3}")
  COMP_CWORD=1
  COMP_LINE="vaneward ${command:0:3}"
  COMPREPLY=()
  _complete_vaneward
  [[ " ${COMPREPLY[*]} " == *" $command "* ]] || fail "$command is not completed"
done

grep -q '"bomFormat" : "CycloneDX"' "$home/bom.json" || fail "bom.json is no bill of materials"
test -s "$home/notebooks/1-from-rebuild-sheet-to-lives.ipynb" || fail "the notebooks are left out"
grep -q 'org.apache.commons:commons-math3' "$home/third-party.txt" || fail "third-party.txt leaves out a library"
grep -q $'exit /b %ERRORLEVEL%\r' "$home/bin/vaneward.bat" || fail "vaneward.bat has lost its line ends"
echo "$(echo "$commands" | wc -l) commands, each with a manual page and completed; $(grep -c '"bom-ref"' "$home/bom.json") entries in the bill of materials"
