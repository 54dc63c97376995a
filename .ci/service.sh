# Runs the README's first command as people do, and asks the service for what it is there for.

address=http://127.0.0.1:5080
service=

# as ACCOUNT COMMAND...: replaces the shell; an account other than root gets a home of its own. Without what CI sets.
as() {
  local account=$1
  shift
  if [ "$account" = root ]; then
    exec env -u CI "$@"
  fi
  # No build server stays behind under the account, which is removed at the end.
  exec setpriv --reuid="$account" --regid="$account" --init-groups -- \
    env -u CI -u DOTNET_CLI_HOME -u NUGET_PACKAGES HOME="$work/home" USER="$account" \
    MSBUILDDISABLENODEREUSE=1 UseSharedCompilation=false "$@"
}

# start_service ACCOUNT FOLDER COMMAND: returns when it is ready.
start_service() {
  local begin=$SECONDS
  if curl -s -o /dev/null "$address"; then
    echo "something else listens on $address: stop it"
    return 1
  fi
  # With job control it is in a process group of its own and minds Ctrl-C, as at a terminal.
  set -m
  (cd "$2" && as "$1" bash -c "$3") >"$work/service.log" 2>&1 </dev/null &
  service=$!
  set +m
  while [ $((SECONDS - begin)) -lt 300 ]; do
    if curl -fs -o /dev/null "$address/health/ready"; then
      echo "ready after $((SECONDS - begin))s; $(grep -m1 '^Database:' "$work/service.log")"
      return
    fi
    kill -0 "$service" 2>/dev/null || break
    sleep 0.5
  done
  echo "the service did not become ready:"
  tail -40 "$work/service.log"
  return 1
}

# Ctrl-C: the signal goes to the whole group, and the service must end in order.
stop_service() {
  local status=0
  kill -INT -- "-$service"
  for _ in $(seq 120); do
    kill -0 "$service" 2>/dev/null || break
    sleep 0.5
  done
  kill -KILL -- "-$service" 2>/dev/null || true
  wait "$service" || status=$?
  service=
  [ $status = 0 ] || { echo "after Ctrl-C the service ended with $status:"; tail -20 "$work/service.log"; return 1; }
}

# At the end of a stage that failed in the middle.
end_service() {
  [ -z "$service" ] || { kill -INT -- "-$service" && sleep 5; kill -KILL -- "-$service"; } 2>/dev/null || true
}

post_record() {
  local record status
  record='{"assetId": "CI-1", "description": "centrifugal pump"}'
  status=$(curl -sS -o "$work/answer.json" -w '%{http_code}' -H 'Content-Type: application/json' -d "$record" "$address/v1/recommendations")
  if [ "$status" != 200 ] || ! jq -e '.recommendation != null' "$work/answer.json" >/dev/null; then
    echo "POST /v1/recommendations answered $status: $(head -c 2000 "$work/answer.json")"
    return 1
  fi
  echo "$record -> $(jq -c '.recommendation' "$work/answer.json" | cut -c1-200)"
}

# try_first_command root|another
try_first_command() {
  local account=root folder=$PWD data=/var/lib/tagservice command round
  command=$(run_command)
  if [ "$1" = another ]; then
    account=tagservice-ci
    folder=$work/home/clone
    data=$work/home/.local/share/TagService
    clone_for_another "$account" "$folder"
  elif [ ! -e $data ]; then
    # Made by this run: taken away again, unless somebody else has come to use it.
    at_end "flock -n $data/owner.lock rm -rf $data"
  fi

  for round in first second; do
    echo "$round run"
    start_service "$account" "$folder" "$command"
    post_record
    stop_service
    [ ! -e "$data/data/postmaster.pid" ] || { echo "the private database still runs"; return 1; }
  done
  grep -q 'kept from the last run' "$work/service.log" || { echo "the second run did not find the data of the first"; return 1; }
}

clone_for_another() {
  if ! id "$1" >/dev/null 2>&1; then
    useradd --system --user-group --no-create-home "$1"
    at_end "userdel $1; rm -rf /tmp/NuGetScratch$1"
  fi
  mkdir -p "$2"
  git ls-files -z | tar --null -T - -c | tar -C "$2" -x
  chown -R "$1:$1" "$work/home"
}

# expect_problem WORDS [SETTING=VALUE...]: the first command must end with 1 and say it in plain lines.
expect_problem() {
  local words=$1 command status=0
  shift
  command=$(run_command)
  (as root "$@" timeout 180 bash -c "$command") >"$work/problem.log" 2>&1 </dev/null || status=$?
  if [ $status != 1 ] || ! grep -qF "$words" "$work/problem.log" || grep -qE '^ +at |Unhandled exception' "$work/problem.log"; then
    echo "expected exit code 1, \"$words\" and no stack trace; got $status and:"
    tail -30 "$work/problem.log"
    return 1
  fi
  grep -F -A1 "$words" "$work/problem.log"
}

try_start_errors() {
  local second=$work/second
  start_service root "$PWD" "LocalDatabase__Folder=$work/first $(run_command)"
  expect_problem 5080 "LocalDatabase__Folder=$second"
  [ ! -e "$second/data/postmaster.pid" ] || { echo "its private database still runs"; return 1; }
  expect_problem 'in use by another running TagService' "LocalDatabase__Folder=$work/first"
  stop_service

  expect_problem '/proc/tagservice' LocalDatabase__Folder=/proc/tagservice
  expect_problem 'no working PostgreSQL server programs' LocalDatabase__BinFolder=/nonexistent "LocalDatabase__Folder=$second"
  echo 12 >"$second/data/PG_VERSION"
  expect_problem 'made by PostgreSQL 12' "LocalDatabase__Folder=$second"
}
