#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fetches what is missing, builds, and runs every test: sh tests/run.sh [--sanitize]
# With --sanitize the same tests run under the address, leak and undefined-behaviour sanitizers,
# in a build folder of their own. The last line is "N passed, N failed".
set -u

cd "$(dirname "$0")/.." || exit 1
. data/packages.sh

case ${1-} in
  '')
    folder=.build
    patience=2
    set --
    ;;
  --sanitize)
    folder=.build-asan
    patience=6
    # the compiler's guesses about uninitialised values are wrong under the sanitizers
    set -- -Db_sanitize=address,undefined -Db_lundef=false -Dwerror=false
    ASAN_OPTIONS=detect_leaks=1:strict_string_checks=1:detect_stack_use_after_return=1
    UBSAN_OPTIONS=print_stacktrace=1:halt_on_error=1
    LSAN_OPTIONS=suppressions=$PWD/tests/leaks.supp:print_suppressions=0
    PR_SANITIZED=1
    export ASAN_OPTIONS UBSAN_OPTIONS LSAN_OPTIONS PR_SANITIZED
    ;;
  *)
    echo 'Use: sh tests/run.sh [--sanitize]' >&2
    exit 2
    ;;
esac

give_up () {
  echo '0 passed, 1 failed'
  exit 1
}

# shellcheck disable=SC2086
pr_fetch $pr_build_packages $pr_test_packages || give_up
pr_configure "$folder" "$@" || give_up
ninja -C "$folder" || give_up

{
  LC_ALL=C.UTF-8 meson test -C "$folder" --no-rebuild --print-errorlogs -t "$patience" 2>&1
  echo $? > "$folder/tests.status"
} | tee "$folder/tests.txt"
status=$(cat "$folder/tests.status")

awk -v status="$status" '
  /^(Ok|Expected Fail): +[0-9]+/ { passed += $NF }
  /^(Fail|Unexpected Pass|Timeout): +[0-9]+/ { failed += $NF }
  END {
    if (status != 0 && failed == 0)
      failed = 1
    printf "%d passed, %d failed\n", passed, failed
    exit failed > 0
  }' "$folder/tests.txt"
