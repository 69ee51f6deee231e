#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Lists every file with texts to translate in POTFILES.in, and the texts of the data files in
# texts.h: sh po/list.sh
set -eu
cd "$(dirname "$0")/.."
python3 po/texts.py > po/texts.h
{
  echo '# Made by po/list.sh'
  echo data/org.pritchel.Pritchel.desktop.in
  echo data/org.pritchel.Pritchel.metainfo.xml.in
  echo po/texts.h
  find src ui -name '*.ui' -o -name '*.c' -o -name '*.h' | LC_ALL=C sort |
    while read -r file; do
      case $file in
        *.ui) grep -q 'translatable="yes"' "$file" && echo "$file" ;;
        *) grep -Eq '\b(N|C|NC)?_ ?\("|ngettext ?\(' "$file" && echo "$file" ;;
      esac
    done || true
} > po/POTFILES.in
