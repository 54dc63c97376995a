# Runs the README's test command so that every test counts.

trx=$work/trx

# trx_sum passed|failed|total|executed: over all test projects.
trx_sum() {
  cat "$trx"/*.trx 2>/dev/null | grep -oE "<Counters [^>]*" | grep -oE " $1=\"[0-9]+" | grep -oE '[0-9]+' |
    awk '{ sum += $1 } END { print sum + 0 }'
}

run_tests() {
  local command projects results
  command=$(test_command)
  mkdir -p "$trx"
  # The command stays as the README has it; what CI needs besides reaches it through the environment.
  TAGSERVICE_TEST_POSTGRES_IMAGE=$POSTGRES_IMAGE VSTestLogger=trx VSTestResultsDirectory=$trx \
    bash -c "$command" </dev/null 2>&1 | tee "$work/test.log" | grep -vE '^\[testcontainers|^  [A-Za-z.]+ -> |^$' || test_failed=1

  projects=$(find tests -name '*.Tests.csproj' | wc -l)
  results=$(find "$trx" -name '*.trx' | wc -l)
  [ "$results" = "$projects" ] || { echo "$projects test projects, but results of $results"; return 1; }
  [ "$(trx_sum total)" = "$(trx_sum executed)" ] || { echo "$(($(trx_sum total) - $(trx_sum executed))) tests were skipped"; return 1; }
  grep -q "The tests use PostgreSQL in a container ($POSTGRES_IMAGE)" "$work/test.log" ||
    { echo "the service tests did not run on PostgreSQL in a container"; return 1; }
  [ "$(trx_sum failed)" = 0 ] || { echo "$(trx_sum failed) tests failed"; return 1; }
  [ -z "${test_failed:-}" ]
}
