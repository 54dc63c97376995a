#!/bin/bash
# Entry point of the locally made PostgreSQL image (see postgres-image.sh).
set -euo pipefail

user=${POSTGRES_USER:-postgres}
database=${POSTGRES_DB:-$user}
[ "${1:-}" = postgres ] && shift

if [ ! -s "$PGDATA/PG_VERSION" ]; then
  install -d -o postgres -g postgres -m 0700 "$PGDATA"
  secret=$(mktemp)
  printf '%s\n' "${POSTGRES_PASSWORD:?set POSTGRES_PASSWORD}" >"$secret"
  chown postgres "$secret"
  setpriv --reuid=postgres --regid=postgres --clear-groups \
    initdb -D "$PGDATA" -U "$user" --pwfile="$secret" --auth=scram-sha-256 --encoding=UTF8 --locale=C.UTF-8
  rm "$secret"
  # Inside the container only, over the socket, so that health checks need no password.
  sed -i 's/^local.*/local all all trust/' "$PGDATA/pg_hba.conf"
  echo 'host all all all scram-sha-256' >>"$PGDATA/pg_hba.conf"
  if [ "$database" != postgres ]; then
    echo "CREATE DATABASE \"$database\"" |
      setpriv --reuid=postgres --regid=postgres --clear-groups \
        postgres --single -D "$PGDATA" postgres >/dev/null
  fi
fi

install -d -o postgres -g postgres /var/run/postgresql
exec setpriv --reuid=postgres --regid=postgres --clear-groups \
  postgres -D "$PGDATA" -c 'listen_addresses=*' "$@"
