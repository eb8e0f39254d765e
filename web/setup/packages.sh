#!/bin/bash
# Installs the Debian packages of debian-packages.txt that are missing: packages.sh GROUP...
set -euo pipefail
setup_dir=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
. "$setup_dir/env.sh"

case "${1:-}" in
  '' | --help | -h)
    echo "usage: packages.sh GROUP...   groups: $(grep -v '^#' "$setup_dir/debian-packages.txt" | cut -d' ' -f1 | sort -u | tr '\n' ' ')"
    exit 0 ;;
esac

good_node() {
  command -v npm > /dev/null 2>&1 && npm --version > /dev/null 2>&1 &&
    [ "$(node -p 'Number(process.versions.node.split(".")[0]) >= 18' 2> /dev/null)" = true ]
}

good_emscripten() {  # an Emscripten SDK on the PATH serves as well as Debian's package
  emcc --version > /dev/null 2>&1
}

command -v dpkg-query > /dev/null 2>&1 || die "this machine is not Debian; install by hand what web/setup/debian-packages.txt lists."
missing=()
for group in "$@"; do
  [ "$group" = node ] && good_node && continue
  while read -r of package; do
    [ "$of" = "$group" ] || continue
    [ "$package" = emscripten ] && good_emscripten && continue
    status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2> /dev/null) || true
    [ "$status" = installed ] || missing+=("$package")
  done < <(grep -v '^#' "$setup_dir/debian-packages.txt")
done
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" != 0 ]; then
  command -v sudo > /dev/null 2>&1 || die "please install as root: apt-get install ${missing[*]}"
  as_root=(sudo)
fi
echo "driftbench: installing ${missing[*]}" >&2
mkdir -p "$DRIFTBENCH_CACHE"
log=$DRIFTBENCH_CACHE/packages.log
install() {
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 install -y -qq --no-install-recommends "${missing[@]}" > "$log" 2>&1
}
install || { "${as_root[@]}" apt-get update -qq > "$log" 2>&1 && install; } ||
  { grep '^E:' "$log" >&2; die "apt-get could not install ${missing[*]}; the whole log is $log."; }
