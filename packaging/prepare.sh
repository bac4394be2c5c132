# Shared by packaging/start, packaging/test and .ci/run: system libraries and the program's own
# Python environment in .venv. Sourced by bash; runs nothing by itself.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
environment="$root/.venv"

# What Qt needs, without a screen (first line) and for a real window.
run_packages=(
    libglib2.0-0 libgl1 libegl1 libfontconfig1 libxkbcommon0 libdbus-1-3
    libxcb-cursor0 libxcb-icccm4 libxcb-keysyms1 libxcb-shape0 libxcb-xkb1 libxkbcommon-x11-0
)
# What only tests use: a screen in memory, and other people's readers to compare with.
test_packages=(xvfb xauth xdotool poppler-utils qpdf ngspice gettext desktop-file-utils)

say() { printf '%s\n' "$*" >&2; }

fail() {
    say "$*"
    exit 1
}

# The names that are not installed, neither as themselves nor by what another package provides.
missing_packages() {
    local installed
    installed=$(dpkg-query -W -f='${db:Status-Status} ${Package} ${Provides}\n' \
        | sed -n 's/^installed //p' | sed 's/([^)]*)//g' | tr ', ' '\n\n')
    local package
    for package in "$@"; do
        grep -qxF "$package" <<<"$installed" || printf '%s\n' "$package"
    done
}

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"; else sudo -n "$@"; fi
}

may_be_root() {
    [ "$(id -u)" = 0 ] || { command -v sudo >/dev/null && sudo -n true 2>/dev/null; }
}

# Install Debian packages that are missing; without the right to, say which and go on.
need_packages() {
    if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
        say "This system has no apt-get; if something is missing below, it is in what Debian calls: $*"
        return
    fi
    local missing
    mapfile -t missing < <(missing_packages "$@")
    [ ${#missing[@]} -gt 0 ] || return 0
    if ! may_be_root; then
        say "Not installed, and this user may not install them. If something fails below, run first:"
        say "  sudo apt-get install --no-install-recommends ${missing[*]}"
        return
    fi
    say "Installing system packages: ${missing[*]}"
    as_root env DEBIAN_FRONTEND=noninteractive apt-get update -qq </dev/null
    as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y -qq --no-install-recommends "${missing[@]}" </dev/null >&2
}

# The first Python that is new enough and can make environments.
find_python() {
    local name
    for name in python3 python3.11 python3.12 python3.13 python3.14; do
        if "$name" -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 11))' 2>/dev/null
        then
            command -v "$name"
            return
        fi
    done
    return 1
}

# Make .venv and install the program into it, with what is needed to "run", "test" or "develop".
# Each includes the one before. A second run with the same pyproject.toml installs nothing and
# needs no network.
need_environment() {
    local purpose=$1 python extras
    if cmp -s "$root/pyproject.toml" "$environment/ready-to-$purpose"; then return; fi
    find_python >/dev/null || need_packages python3 python3-venv
    python=$(find_python) \
        || fail "Python 3.11 or newer with its venv module is needed (Debian: python3 python3-venv)."
    [ -x "$environment/bin/python" ] || "$python" -m venv "$environment"
    case $purpose in run) extras="" ;; test) extras="[test]" ;; develop) extras="[dev]" ;; esac
    say "Installing the program and its libraries into $environment"
    "$environment/bin/python" -m pip install --quiet --disable-pip-version-check \
        --editable "$root$extras" </dev/null >&2
    local ready
    for ready in run test develop; do
        cp "$root/pyproject.toml" "$environment/ready-to-$ready"
        if [ "$ready" = "$purpose" ]; then break; fi
    done
}

# Stop with a plain word where Qt cannot be loaded, instead of somewhere inside.
need_qt() {
    "$environment/bin/python" -c 'import PySide6.QtWidgets' \
        || fail "The Qt libraries do not load. On Debian or Ubuntu install: ${run_packages[*]}"
}
