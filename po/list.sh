#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Lists every file with texts to translate in POTFILES.in, and the texts of the data files in
# texts.h: sh po/list.sh [FOLDER], by default this one
set -eu
cd "$(dirname "$0")/.."
to=${1:-po}
python3 po/texts.py > "$to/texts.h"
{
  echo '# Made by po/list.sh'
  echo data/org.pritchel.Pritchel.desktop.in
  echo data/org.pritchel.Pritchel.gschema.xml
  echo data/org.pritchel.Pritchel.metainfo.xml.in
  echo po/texts.h
  find src ui -name '*.ui' -o -name '*.c' -o -name '*.h' | LC_ALL=C sort |
    while read -r file; do
      case $file in
        *.ui) grep -q 'translatable="yes"' "$file" && echo "$file" ;;
        *) grep -Eq '\b(N|C|NC)?_ ?\("|ngettext ?\(' "$file" && echo "$file" ;;
      esac
    done || true
} > "$to/POTFILES.in"
