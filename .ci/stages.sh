# Stages with a heading, their time, and what is cleared away at the end.

work=$(mktemp -d)
chmod 0755 "$work"
failed_stages=0
last_stage=0

# stage TITLE COMMAND...: runs the command in a shell of its own, in which the first failing line ends the stage.
stage() {
  local title=$1 begin=$SECONDS status
  shift
  printf '\n=== %s (%s)\n' "$title" "$(date +%H:%M:%S)"
  set +e
  (set -euo pipefail; trap end_service EXIT; "$@")
  status=$?
  set -e
  if [ $status = 0 ]; then
    printf -- '--- %s: passed, %ss\n' "$title" $((SECONDS - begin))
  else
    printf -- '--- %s: FAILED (%s), %ss\n' "$title" "$status" $((SECONDS - begin))
    failed_stages=$((failed_stages + 1))
  fi
  last_stage=$status
}

# required STAGE...: what follows makes no sense if it fails. Without it a failed stage is noted and the next one runs.
required() { "$@"; [ "$last_stage" = 0 ] || exit 1; }

# at_end COMMAND: kept in a file, because the stages run in shells of their own.
at_end() { printf '%s\n' "$1" >>"$work/at-end"; }

finish() {
  local status=$? passed failed
  set +e
  [ -f "$work/at-end" ] && tac "$work/at-end" | bash >/dev/null 2>&1
  passed=$(trx_sum passed)
  failed=$(trx_sum failed)
  # The tests that failed made their stage fail: it is not one more.
  [ "$failed" != 0 ] && failed_stages=$((failed_stages - 1))
  failed=$((failed + failed_stages))
  # Ended before any stage could fail, for example by a signal.
  [ $status != 0 ] && [ "$failed" = 0 ] && failed=1
  rm -rf "$work"
  printf '\n=== End (%s), %s minutes\n' "$(date +%H:%M:%S)" $(((SECONDS + 59) / 60))
  printf '%s passed, %s failed\n' "$passed" "$failed"
  [ "$failed" = 0 ]
  exit $?
}
