# SPDX-License-Identifier: GPL-3.0-or-later
#
# What data/demo/run and tests/run share: installing what is missing, and building. To be sourced by bash from the top of
# the tree, under set -euo pipefail. Messages go to standard error.

say () { printf '%s\n' "$*" >&2; }

# packages_for PURPOSE...: the packages of these purposes in data/packaging/debian-packages.
packages_for () {
  local purpose
  for purpose; do
    sed -n "/^\[$purpose\]\$/,/^\[/{/^[a-z0-9]/p}" data/packaging/debian-packages
  done
}

# missing_packages PURPOSE...: those of them that are not installed.
missing_packages () {
  local package
  for package in $(packages_for "$@"); do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || printf '%s\n' "$package"
  done
}

# as_root COMMAND...: as it is for root, else by sudo.
as_root () {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

# install_packages PURPOSE...: installs what is missing. Where that takes root and there is no way to it, says the one line
# to type and exits 2.
install_packages () {
  local missing
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    say "This installs by apt, for Debian 12. On another system install what is named in data/packaging/debian-packages,"
    say "then build with: meson setup .build && ninja -C .build"
    exit 2
  fi
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" -gt 0 ] || return 0

  local install=(env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}")
  if [ "$(id -u)" -ne 0 ] && ! { command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [ -t 0 ]; }; }; then
    say "Packages are missing, and installing them takes root. Type this once, then run this again:"
    say "  su -c 'apt-get update && apt-get install -y --no-install-recommends ${missing[*]}'"
    exit 2
  fi
  say "Installing: ${missing[*]}"
  # A machine may have no package lists yet, or old ones: fetch them when the first try fails.
  if ! as_root "${install[@]}" </dev/null >/dev/null 2>&1; then
    as_root apt-get update -q </dev/null >&2
    as_root "${install[@]}" </dev/null >&2
  fi
}

# build FOLDER [MESON-OPTION...]: configures FOLDER, or brings it to these options, and builds all of it there.
build () {
  local folder=$1
  shift
  if [ -f "$folder/build.ninja" ]; then
    # Again from the start, so that a folder or file that has come since is seen.
    meson setup --reconfigure "$folder" "$@" >&2 || return 1
  else
    rm -rf "$folder"  # what a first try that failed has left
    meson setup "$folder" "$@" >&2 || return 1
  fi
  say "Building in $folder/"
  ninja -C "$folder" >&2 || return 1
}
