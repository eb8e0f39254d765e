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

die() {
  echo "driftbench: $*" >&2
  exit 1
}
