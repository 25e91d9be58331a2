# SPDX-License-Identifier: GPL-3.0-or-later
# What src/run.sh and tests/run.sh share: installing Debian packages, and building. Sourced.

# Libraries by the names that pkg-config knows them by, with the packages that bring them.
libraries="glib-2.0:libglib2.0-dev gobject-2.0:libglib2.0-dev geos:libgeos-dev
  libxml-2.0:libxml2-dev cairo-pdf:libcairo2-dev cairo-svg:libcairo2-dev
  pangocairo:libpango1.0-dev gdk-pixbuf-2.0:libgdk-pixbuf-2.0-dev gtk4:libgtk-4-dev
  libadwaita-1:libadwaita-1-dev"

# install_packages PACKAGE...: by apt-get, as root or through sudo; says nothing where it has
# nothing to do.
install_packages () {
  [ $# -gt 0 ] || return 0
  if ! command -v apt-get >/dev/null; then
    echo "missing: $*; this system has no apt-get, install what they hold by hand" >&2
    return 1
  fi
  as_root=
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "missing: $*; become root, or install sudo, and run this again" >&2
      return 1
    fi
    as_root=sudo
  fi
  echo "Installing $*"
  log=$(mktemp)
  if ! { $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq update \
         && $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y \
              --no-install-recommends "$@"; } </dev/null >"$log" 2>&1; then
    cat "$log" >&2
    rm -f "$log"
    echo "apt-get could not install: $*" >&2
    return 1
  fi
  rm -f "$log"
}

# missing_commands COMMAND:PACKAGE...: prints the packages of commands that are not there.
missing_commands () {
  for pair in "$@"; do
    command -v "${pair%%:*}" >/dev/null || printf '%s ' "${pair#*:}"
  done
}

missing_libraries () {
  for pair in $libraries; do
    pkg-config --exists "${pair%%:*}" 2>/dev/null || printf '%s ' "${pair#*:}"
  done
}

# Package names hold no blanks, so that the lists may be split.
install_build_tools () {
  # shellcheck disable=SC2046
  install_packages $(missing_commands gcc:gcc pkg-config:pkg-config meson:meson ninja:ninja-build \
    msgfmt:gettext cmark-gfm:cmark-gfm gtk4-update-icon-cache:libgtk-4-bin update-desktop-database:desktop-file-utils \
    update-mime-database:shared-mime-info
    [ -e /usr/include/stdio.h ] || printf 'libc6-dev '
    [ -e /usr/share/icons/Adwaita ] || printf 'adwaita-icon-theme '
    ls /usr/lib/*/gdk-pixbuf-2.0/*/loaders/libpixbufloader-svg.so >/dev/null 2>&1 \
      || printf 'librsvg2-common '
    [ -e /usr/share/fonts/truetype ] || printf 'fonts-dejavu-core '
    [ -e /usr/include/glpk.h ] || printf 'libglpk-dev '
    missing_libraries)
}

# build_in FOLDER [MESON-OPTION...]: quiet unless something goes wrong.
build_in () {
  folder=$1
  shift
  mkdir -p "$folder"
  # meson wants a home and a locale that knows UTF-8.
  HOME=${HOME:-$folder}
  LC_ALL=C.UTF-8
  export HOME LC_ALL
  [ ! -f "$folder/build.ninja" ] || set -- --reconfigure "$@"
  echo "Building in $folder: the first time that takes some minutes" >&2
  if ! meson setup "$@" "$folder" "$top" </dev/null >"$folder/setup.txt" 2>&1; then
    cat "$folder/setup.txt" >&2
    return 1
  fi
  if ! meson compile -C "$folder" </dev/null >"$folder/compile.txt" 2>&1; then
    cat "$folder/compile.txt" >&2
    return 1
  fi
}
