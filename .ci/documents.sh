# Runs the commands that README.md and DEVELOPERS.md tell people to type: their fenced blocks tagged sh.
# Blocks tagged otherwise (console, json ...) are shown only.

# sh_blocks FILE DIRECTORY: writes each block to DIRECTORY/NN.sh, in order.
sh_blocks() {
  mkdir -p "$2"
  awk -v directory="$2" '
    /^```sh[ \t]*$/ { inside = 1; file = sprintf("%s/%02d.sh", directory, ++n); next }
    /^```/          { inside = 0; next }
    inside          { print > file }' "$1"
}

# first_block FILE PATTERN: the first one-line block that matches.
first_block() {
  local directory block
  directory=$(mktemp -d -p "$work")
  sh_blocks "$1" "$directory"
  for block in "$directory"/*.sh; do
    if [ "$(wc -l <"$block")" = 1 ] && grep -qE "$2" "$block"; then
      cat "$block"
      return
    fi
  done
  echo "$1 has no sh block that matches $2" >&2
  return 1
}

test_command() { first_block README.md '^dotnet test$'; }

run_command() { first_block README.md '^dotnet run --project src/TagService$'; }

# The service is running while the other commands of a document are typed: people follow it from top to bottom.
run_document_commands() {
  local document directory block first
  first=$(run_command)
  for document in README.md DEVELOPERS.md; do
    directory=$(mktemp -d -p "$work")
    sh_blocks "$document" "$directory"
    for block in "$directory"/*.sh; do
      [ -f "$block" ] || continue
      case $(cat "$block") in
        "$first" | "$(test_command)") continue ;; # stages of their own
      esac
      [ -n "$service" ] || start_service root "$PWD" "$first"
      printf '%s: %s\n' "$document" "$(head -1 "$block")"
      bash -euo pipefail "$block" </dev/null
    done
    [ -z "$service" ] || stop_service
  done
}
