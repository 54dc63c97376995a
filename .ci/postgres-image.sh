#!/usr/bin/env bash
# Makes a PostgreSQL container image out of Debian packages, for machines that cannot pull one.
# Usage: .ci/postgres-image.sh IMAGE
# The image answers to what the official one answers to, as far as the tests need it: POSTGRES_DB,
# POSTGRES_USER, POSTGRES_PASSWORD, and a command that begins with a dash is server options.
set -euo pipefail

image=$1
here=$(cd "$(dirname "$0")" && pwd)
major=15 # Debian 12's, and the oldest one the service supports
bin=/usr/lib/postgresql/$major/bin

# Fresh means: made by this script and its entry point as they are now.
recipe=$(cat "$here/postgres-image.sh" "$here/postgres-entrypoint.sh" | sha256sum | cut -c1-16)
if [ "$(docker image inspect -f '{{index .Config.Labels "recipe"}}' "$image" 2>/dev/null)" = "$recipe" ]; then
  echo "$image is there and fresh"
  exit 0
fi

root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
debootstrap --variant=minbase --include=postgresql-$major bookworm "$root" http://deb.debian.org/debian >"$root.log" 2>&1 ||
  { tail -30 "$root.log"; exit 1; }
rm -rf "$root".log "$root"/var/cache/apt/archives/*.deb "$root"/var/lib/apt/lists/* "$root"/usr/share/doc/* \
  "$root"/var/lib/postgresql/$major
install -m 0755 "$here/postgres-entrypoint.sh" "$root/usr/local/bin/docker-entrypoint.sh"

tar -C "$root" -c . | docker import \
  --change "ENV PATH=$bin:/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin" \
  --change 'ENV PGDATA=/var/lib/postgresql/data' \
  --change 'ENTRYPOINT ["docker-entrypoint.sh"]' \
  --change 'CMD ["postgres"]' \
  --change 'EXPOSE 5432' \
  --change "LABEL recipe=$recipe" \
  - "$image" >/dev/null
echo "$image made"
