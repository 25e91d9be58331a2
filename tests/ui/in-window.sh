#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: in-window.sh COMMAND [ARGUMENT...]
# Runs a command with an X server, a session bus and a home of its own. The bus has to be inside:
# what it starts needs to know the display. SCREEN, as in 1280x1024, and LANGUAGES matter.
set -eu
home=$(mktemp -d)
# What a program that is ending still writes there is no failure.
trap 'rm -rf "$home" 2>/dev/null || :' EXIT
mkdir -m 700 "$home/run"
HOME=$home
XDG_RUNTIME_DIR=$home/run
XDG_CONFIG_HOME=$home/config
XDG_DATA_HOME=$home/data
XDG_STATE_HOME=$home/state
XDG_CACHE_HOME=$home/cache
export HOME XDG_RUNTIME_DIR XDG_CONFIG_HOME XDG_DATA_HOME XDG_STATE_HOME XDG_CACHE_HOME
unset DBUS_SESSION_BUS_ADDRESS WAYLAND_DISPLAY GTK_THEME || :
status=0
# What the bus starts says its own things: only the command's words come out.
xvfb-run -a -s "-screen 0 ${SCREEN:-1280x1024}x24 -nolisten tcp -noreset" \
  dbus-run-session -- sh -c 'exec "$@" >&3 3>&-' sh "$@" 3>&1 >/dev/null || status=$?
exit "$status"
