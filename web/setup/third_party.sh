#!/bin/bash
# Fetches SDL and Dear ImGui as Debian source packages and builds SDL for WebAssembly, into the cache.
set -euo pipefail

usage() {
  cat << 'HELP'
usage: third_party.sh [--print-prefix]

Makes <cache>/third-party/<key>/ with
  sdl2/     SDL built by the Emscripten on the PATH (include/SDL2, lib/libSDL2.a)
  imgui/    Dear ImGui sources, compiled by the project's own CMake
and prints that folder. Nothing happens when it is there already. Cache: $DRIFTBENCH_CACHE
(default ~/.cache/driftbench). --print-prefix only prints the folder, built or not.
Safe to interrupt and to run twice at once.
HELP
}

setup_dir=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
. "$setup_dir/env.sh"

suite=trixie
sdl_package=libsdl2 sdl_version=2.32.4+dfsg-1
imgui_package=imgui imgui_version=1.90.1+ds-1
keyring=/usr/share/keyrings/debian-archive-keyring.gpg

only_print=0
case "${1:-}" in
  '') ;;
  --print-prefix) only_print=1 ;;
  --help | -h) usage; exit 0 ;;
  *) usage >&2; exit 2 ;;
esac

emcc_version=$(emcc --version 2> /dev/null | head -n 1) || true
[ -n "$emcc_version" ] || die "no emcc on the PATH; install the Debian package emscripten or activate an Emscripten SDK."
key=$( (cat "$setup_dir/third_party.sh" "$setup_dir/third_party.sha256" "$setup_dir/emscripten_compat.h"
        echo "$emcc_version") | sha256sum | cut -c1-16)
prefix=$DRIFTBENCH_CACHE/third-party/$key
if [ "$only_print" = 1 ] || [ -f "$prefix/complete" ]; then
  echo "$prefix"
  exit 0
fi

mkdir -p "$DRIFTBENCH_CACHE/third-party" "$DRIFTBENCH_CACHE/sources"
exec 9> "$DRIFTBENCH_CACHE/third-party/lock"
flock 9
if [ -f "$prefix/complete" ]; then
  echo "$prefix"
  exit 0
fi

# The lock is ours, so whatever lies here unfinished was left by a run that was killed.
rm -rf "$DRIFTBENCH_CACHE"/third-party/building.*
work=$(mktemp -d "$DRIFTBENCH_CACHE/third-party/building.XXXXXX")
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM

# A private apt configuration: the machine's own mirror, another suite, no change to the machine's lists.
configure_apt() {
  local mirror home=$DRIFTBENCH_CACHE/apt-$suite
  [ "${APT_CONFIG:-}" = "$home/apt.conf" ] && return
  mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Origin: Debian' 'Label: Debian' | head -n 1) || true
  [ -n "$mirror" ] || mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' | grep -v security | head -n 1) || true
  [ -n "$mirror" ] || die "apt knows no Debian mirror on this machine; run apt-get update once as root."
  [ -f "$keyring" ] || die "the Debian package debian-archive-keyring is missing."
  mkdir -p "$home/lists/partial" "$home/cache/archives/partial"
  printf 'Types: deb-src\nURIs: %s\nSuites: %s\nComponents: main\nSigned-By: %s\n' \
    "$mirror" "$suite" "$keyring" > "$home/driftbench.sources"
  cat > "$home/apt.conf" << CONF
Dir::Etc::sourcelist "$home/driftbench.sources";
Dir::Etc::sourceparts "-";
Dir::State::Lists "$home/lists";
Dir::Cache "$home/cache";
APT::Sandbox::User "root";
CONF
  export APT_CONFIG=$home/apt.conf
}

verified() {
  local package=$1
  (cd "$DRIFTBENCH_CACHE/sources" &&
    grep "  ${package}_" "$setup_dir/third_party.sha256" | sha256sum --check --status 2> /dev/null)
}

fetch() {
  local package=$1 version=$2
  verified "$package" && return
  configure_apt
  echo "driftbench: fetching $package $version" >&2
  (
    cd "$work"
    apt-get source -qq --download-only --only-source "$package=$version" > fetch.log 2>&1 ||
      { apt-get update -qq >> fetch.log 2>&1 &&
        apt-get source -qq --download-only --only-source "$package=$version" >> fetch.log 2>&1; } ||
      { cat fetch.log >&2; exit 1; }
    mv "${package}"_* "$DRIFTBENCH_CACHE/sources/"
  ) || die "could not fetch the Debian source package $package $version."
  verified "$package" || die "$package $version does not have the expected checksums; nothing was built from it."
}

unpack() {
  local package=$1 version=$2 to=$3
  dpkg-source --no-check -x "$DRIFTBENCH_CACHE/sources/${package}_$version.dsc" "$to" > "$work/unpack.log" 2>&1 ||
    { cat "$work/unpack.log" >&2; die "could not unpack $package."; }
}

# The app draws with OpenGL ES alone: SDL's software blitters and its joystick tables would only be downloaded.
build_sdl() {
  echo "driftbench: building SDL for WebAssembly (about 3 minutes on two cores, once)" >&2
  {
    emcmake cmake -S "$work/sdl-source" -B "$work/sdl-build" -G Ninja -DCMAKE_BUILD_TYPE=MinSizeRel \
      "-DCMAKE_C_FLAGS=-include $setup_dir/emscripten_compat.h -DSDL_LEAN_AND_MEAN=1" -DCMAKE_INSTALL_PREFIX="$work/out/sdl2" \
      -DSDL_STATIC=ON -DSDL_SHARED=OFF -DSDL_TEST=OFF -DSDL_TESTS=OFF -DSDL_PTHREADS=OFF -DSDL_THREADS=OFF \
      -DSDL_AUDIO=OFF -DSDL_RENDER=OFF -DSDL_HAPTIC=OFF -DSDL_SENSOR=OFF -DSDL_JOYSTICK=OFF -DSDL_DISKAUDIO=OFF \
      -DSDL_DUMMYAUDIO=OFF -DSDL_OPENGL=OFF -DSDL_OPENGLES=ON &&
      cmake --build "$work/sdl-build" && cmake --install "$work/sdl-build"
  } > "$work/sdl.log" 2>&1 || { tail -n 40 "$work/sdl.log" >&2; die "SDL did not build; the last lines stand above."; }
}

fetch $sdl_package $sdl_version
fetch $imgui_package $imgui_version
mkdir "$work/out"
unpack $sdl_package $sdl_version "$work/sdl-source"
unpack $imgui_package $imgui_version "$work/out/imgui"
build_sdl
touch "$work/out/complete"
rm -rf "$prefix"
mv "$work/out" "$prefix"
echo "$prefix"
