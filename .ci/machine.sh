# What the machine needs: Debian packages and a container engine.

# iptables and the certificates are only recommended by docker.io and git; the engine does not start without the former.
packages="ca-certificates curl debootstrap docker.io git iptables jq postgresql xz-utils"

install_packages() {
  local missing=() package
  for package in $packages; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} = 0 ] && { echo "all there"; return; }

  echo "installing ${missing[*]}"
  export DEBIAN_FRONTEND=noninteractive
  # Another run of apt may be at work on a new machine: wait for it.
  local attempt
  for attempt in 1 2 3 4 5 6 7 8 9 10; do
    apt-get -o DPkg::Lock::Timeout=300 update -q >"$work/apt.log" 2>&1 &&
      apt-get -o DPkg::Lock::Timeout=300 install -y -q --no-install-recommends "${missing[@]}" >>"$work/apt.log" 2>&1 && return
    sleep 15
  done
  tail -30 "$work/apt.log"
  return 1
}

start_container_engine() {
  if docker info >/dev/null 2>&1; then
    echo "one is running"
    return
  fi
  setsid dockerd >"$work/dockerd.log" 2>&1 </dev/null &
  at_end "kill $!; while kill -0 $! 2>/dev/null; do sleep 0.2; done"
  local second
  for second in $(seq 60); do
    if docker info >/dev/null 2>&1; then
      echo "started, ready after ${second}s"
      return
    fi
    sleep 1
  done
  tail -30 "$work/dockerd.log"
  return 1
}
