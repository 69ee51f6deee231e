# SPDX-License-Identifier: GPL-3.0-or-later
# What the scripts need of Debian 12, in one place; sourced by those in data and tests.

# What the program uses while it runs and is not linked with: HEIC and WebP photos, SVG icons, text in drawings.
pr_run_packages='heif-gdk-pixbuf webp-pixbuf-loader librsvg2-common
  fonts-dejavu-core adwaita-icon-theme hicolor-icon-theme shared-mime-info'

# To build the program and to run it.
pr_build_packages="build-essential meson ninja-build pkg-config gettext itstool libxml2-utils
  libglib2.0-dev libgtk-4-dev libgdk-pixbuf-2.0-dev libcairo2-dev libpango1.0-dev libpng-dev libapriltag-dev
  libleptonica-dev libgeos-dev libcminpack-dev libsqlite3-dev libjson-glib-dev libsoup-3.0-dev libqrencode-dev
  $pr_run_packages"

# To run the tests as well: the test library, answers from outside, a screen without a screen, a phone's browser.
pr_test_packages='libcmocka-dev python3 python3-numpy python3-opencv python3-shapely python3-ezdxf
  poppler-utils desktop-file-utils appstream yelp-tools locales imagemagick clang-format
  iproute2 xvfb openbox xdotool x11-utils dbus dbus-x11 at-spi2-core
  python3-gi gir1.2-atspi-2.0 gir1.2-gtk-4.0 zbar-tools chromium chromium-driver'

# pr_fetch PACKAGE...: installs those that are missing, asks nothing, does nothing when all are there.
pr_fetch () {
  command -v dpkg-query >/dev/null 2>&1 || {
    echo 'This is not a Debian system: the packages named in data/packages.sh are taken as present.' >&2
    return 0
  }
  pr_missing=
  for pr_package in "$@"; do
    case $(dpkg-query -W -f '${db:Status-Status} ' "$pr_package" 2>/dev/null) in
      'installed '*) ;;
      *) pr_missing="$pr_missing $pr_package" ;;
    esac
  done
  [ -n "$pr_missing" ] || return 0
  pr_root=
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null 2>&1 || {
      echo "Run this as root: apt-get install$pr_missing" >&2
      return 1
    }
    pr_root=sudo
  fi
  echo "Installing:$pr_missing"
  # shellcheck disable=SC2086 # the lists are words on purpose
  $pr_root env DEBIAN_FRONTEND=noninteractive apt-get -q update &&
    $pr_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends $pr_missing
}

# pr_configure FOLDER OPTION...: sets the build folder up, or looks again at what is installed.
pr_configure () {
  pr_folder=$1
  shift
  if [ -f "$pr_folder/build.ninja" ]; then
    meson setup --reconfigure "$pr_folder" "$@"
  else
    rm -rf "$pr_folder"
    meson setup --buildtype=debugoptimized "$pr_folder" "$@"
  fi
}
