# Shared settings of the project's scripts; sourced by them, not run.
# Sets DRIFTBENCH_ROOT, DRIFTBENCH_CACHE, NODE_PATH and the compiler cache, each only where the caller has not.

DRIFTBENCH_ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
: "${DRIFTBENCH_CACHE:=${XDG_CACHE_HOME:-$HOME/.cache}/driftbench}"
export DRIFTBENCH_ROOT DRIFTBENCH_CACHE

# Debian's Emscripten looks for its JavaScript parser (acorn) through NODE_PATH.
if [ -d /usr/share/nodejs/acorn ]; then
  export NODE_PATH=${NODE_PATH:-/usr/share/nodejs}
fi

# Paths below the project are cached as relative ones, so that another clone finds them too.
if command -v ccache > /dev/null 2>&1; then
  export CCACHE_BASEDIR=${CCACHE_BASEDIR:-$DRIFTBENCH_ROOT} CCACHE_NOHASHDIR=${CCACHE_NOHASHDIR:-1}
  export CCACHE_SLOPPINESS=${CCACHE_SLOPPINESS:-pch_defines,time_macros}
  export CMAKE_C_COMPILER_LAUNCHER=${CMAKE_C_COMPILER_LAUNCHER:-ccache}
  export CMAKE_CXX_COMPILER_LAUNCHER=${CMAKE_CXX_COMPILER_LAUNCHER:-ccache}
fi

# Runs a build with its output in a log and tells how far it is: in place on a terminal, else a line a minute.
# usage: build_told LOG COMMAND...
build_told() {
  local log=$1 reporter code=0
  shift
  : > "$log"
  # It ends with this script, too: an interruption reaches the build, which stands in front.
  (
    told=$SECONDS
    while sleep 1 && kill -0 $$ 2> /dev/null; do
      at=$(tail -c 4000 "$log" | grep -oE '^\[[0-9]+/[0-9]+\]' | tail -n 1 || true)
      if [ -n "$at" ] && [ -t 1 ]; then
        printf '\r%s ' "$at"
      elif [ -n "$at" ] && [ $((SECONDS - told)) -ge 60 ]; then
        told=$SECONDS
        echo "$at"
      fi
    done
  ) &
  reporter=$!
  "$@" > "$log" 2>&1 || code=$?
  kill "$reporter" 2> /dev/null || true
  wait "$reporter" 2> /dev/null || true
  [ ! -t 1 ] || printf '\r%20s\r' ''
  return "$code"
}

die() {
  echo "driftbench: $*" >&2
  exit 1
}
