#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What the README promises, on a machine that has nothing: sh tests/bare.sh [demo|suite|package]...
# Makes a bare Debian 12 that has this machine's apt settings and nothing else of it, copies into it what
# is committed, and runs there what the README says: the demo, the tests, and the making of the package.
# The package goes onto a second bare system, where it is installed, tried and removed. All by default.
# Where no such system can be made, one line says why and the tests run in place.
# The last line is "N passed, N failed".
set -u

cd "$(dirname "$0")/.." || exit 1
. data/packages.sh
steps=${*:-demo suite package}
for step in $steps; do
  case $step in
    demo | suite | package) ;;
    *) echo 'Use: sh tests/bare.sh [demo|suite|package]...' >&2; exit 2 ;;
  esac
done

passed=0
failed=0
# check WHAT COMMAND...: one thing that holds or does not
check () {
  what=$1
  shift
  if "$@"; then
    passed=$((passed + 1))
    echo "-- holds: $what"
  else
    failed=$((failed + 1))
    echo "-- FAILS: $what"
    return 1
  fi
}

in_place () {
  echo "No bare Debian can be made here, so the tests run in place: $1."
  exec sh tests/run.sh
}

# ---- the bare system ----

# a mount and a process inside are private to it and end with it, however it ends
walls='--mount --pid --fork --kill-child'

# commit WORDS: asks git of this checkout, which may be another's whom sudo made root
commit () {
  git -c safe.directory="$PWD" "$@"
}

can_be_made () {
  [ "$(id -u)" = 0 ] || in_place 'it takes root'
  grep -qs '^VERSION_CODENAME=bookworm' /etc/os-release || in_place 'the apt settings are not those of Debian 12'
  pr_fetch mmdebstrap >/dev/null 2>&1 || in_place 'mmdebstrap is missing and could not be installed'
  # shellcheck disable=SC2086
  unshare $walls --mount-proc true 2>/dev/null || in_place 'nothing may be mounted'
  commit rev-parse -q --verify HEAD >/dev/null 2>&1 || in_place 'nothing is committed that could be copied'
}

# What mmdebstrap runs before the first package, the new root being $1: apt's settings and keys as they are
# here. What they would start is left out, for its programs are not there; nobody answers questions, and no
# terminal is there to be had.
# shellcheck disable=SC2016
take_apt_over='
set -eu
for part in apt.conf apt.conf.d auth.conf auth.conf.d keyrings preferences preferences.d trusted.gpg trusted.gpg.d; do
  [ ! -e "/etc/apt/$part" ] || cp -RL "/etc/apt/$part" "$1/etc/apt/"
done
grep -rhoE "/usr/share/keyrings/[^], ]+" /etc/apt/sources.list* | sort -u | while read -r key; do
  mkdir -p "$1/usr/share/keyrings"
  cp -L "$key" "$1$key"
done
cat > "$1/etc/apt/apt.conf.d/zz-bare" <<EOF
#clear DPkg::Pre-Invoke;
#clear DPkg::Post-Invoke;
#clear DPkg::Pre-Install-Pkgs;
#clear APT::Update::Pre-Invoke;
#clear APT::Update::Post-Invoke;
#clear APT::Update::Post-Invoke-Success;
APT::Get::Assume-Yes "true";
Dpkg::Use-Pty "false";
EOF'

# make_bare FOLDER
make_bare () {
  set -- "$1"
  for list in /etc/apt/sources.list /etc/apt/sources.list.d/*.list /etc/apt/sources.list.d/*.sources; do
    [ ! -s "$list" ] || set -- "$@" "$list"
  done
  mmdebstrap --quiet --variant=apt --setup-hook="$take_apt_over" bookworm "$@" </dev/null || return 1
  cp -L /etc/resolv.conf /etc/hosts "$1/etc/" || return 1
  # a mirror behind https is known by the authorities that this machine trusts
  if grep -rqs https: "$1"/etc/apt/sources.list*; then
    cp -L /etc/ssl/certs/ca-certificates.crt "$1/etc/apt/authorities.crt" || return 1
    echo 'Acquire::https::CAInfo "/etc/apt/authorities.crt";' >> "$1/etc/apt/apt.conf.d/zz-bare"
  fi
}

# inside ROOT COMMAND: runs it there with nothing of this environment but the way out; terminals may be made there
inside () {
  # shellcheck disable=SC2016,SC2046,SC2086
  sh -c 'echo $$ > "$0"; exec "$@"' "$work/pid" \
    unshare $walls --mount-proc="$1/proc" chroot "$1" \
    env -i PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root \
    $(env | grep -Ei '^(https?|ftp|all|no)_proxy=') sh -c "mount -t devpts -o ptmxmode=0666 devpts /dev/pts 2>/dev/null; $2" </dev/null
  set -- $?
  rm -f "$work/pid"
  return "$1"
}

# watch ROOT COMMAND: the same with its output shown, and kept in $work/said
watch () {
  { inside "$1" "$2"; echo $? > "$work/status"; } 2>&1 | tee "$work/said" &
  wait $!
  return "$(cat "$work/status")"
}

leave () {
  [ ! -s "$work/pid" ] || kill -KILL "$(cat "$work/pid")"
  wait
  rm -rf --one-file-system "$work"
}

# ---- what is promised ----

here=/root/pritchel

# said_to_do START: the command of the README that begins so
said_to_do () {
  sed -n "s|^    \($1[^#]*\).*|\1|p" "$first$here/README.md" | sed 's/ *$//' | head -n 1
}

# follow ROOT START: runs that command, as root, who needs no sudo
follow () {
  : > "$work/said"
  command=$(said_to_do "$2" | sed 's/^sudo //')
  [ -n "$command" ] || { echo "README.md has no command that begins with \"$2\""; return 1; }
  echo "$ $command"
  watch "$1" "cd $here && $command"
}

step_demo () {
  check 'the demo runs' follow "$first" 'sh data/demo.sh'
  check 'its template is there' test -s "$first$here/.build/demo/template.pdf"
  check 'it says why no window opens' sh -c "tail -n 1 '$work/said' | grep -q '^There is no screen here'"
}

step_suite () {
  check 'the tests run' follow "$first" 'sh tests/run.sh'
  check 'they count' sh -c "tail -n 1 '$work/said' | grep -Eqx '[0-9]+ passed, [0-9]+ failed'"
  check 'none is left out for want of a package' \
    sh -c "! grep -E 'the tests are left out|is not tested' '$work/said'"
  # shellcheck disable=SC2046 # two numbers or nothing
  set -- $(tail -n 1 "$work/said" | sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p')
  passed=$((passed + ${1:-0}))
  failed=$((failed + ${2:-0}))
}

# files ROOT: all that an installation can leave behind, but for the records of apt and dpkg themselves
files () {
  (cd "$1" && find etc usr var/lib -path var/lib/apt -prune -o -path var/lib/dpkg -prune -o -print | LC_ALL=C sort)
}

# What Debian's own packages leave when they go again, of those that ours brings along: one a line.
left_by_debian='etc/gshadow-
etc/machine-id
etc/mtab
etc/shadow-
var/lib/private
var/lib/systemd/coredump
var/lib/systemd/pstore'

# nothing_left: the second system has the files it had, those of packages that apt keeps, and those above
nothing_left () {
  files "$second" > "$work/after"
  sed -E 's|^/||; s,^(bin|sbin|lib[^/]*)/,usr/&,' "$second"/var/lib/dpkg/info/*.list > "$work/owned"
  echo "$left_by_debian" >> "$work/owned"
  ! grep -Fxv -f "$work/before" "$work/after" | grep -Fxv -f "$work/owned"
}

# speaks LANGUAGE: the installed program answers in it
speaks () {
  set -- "$(inside "$second" "LC_ALL=C.UTF-8 LANGUAGE=$1 pritchel unheard-of 2>&1")" \
    "$(inside "$second" 'LC_ALL=C pritchel unheard-of 2>&1')"
  [ "$1" ] && [ "$2" ] && [ "$1" != "$2" ]
}

# nowhere_named: neither a file nor what a cache of the desktop holds still names the program
nowhere_named () {
  ! files "$second" | grep -i pritchel && ! grep -rail pritchel "$second/etc" "$second/usr" "$second/var/lib/systemd"
}

step_package () {
  check 'the package is made' follow "$first" 'sh data/deb.sh'
  name=$(tail -n 1 "$work/said")
  check 'its name is the last word' test -f "$first$here/$name" || return
  files "$second" > "$work/before"
  mkdir -p "$second$here/.build-deb"
  cp "$first$here/$name" "$second$here/.build-deb/"
  cp "$first$here/data/demo/near-fore.jpg" "$second/root/"

  watch "$second" 'apt-get -q update'
  check 'apt installs it with all it needs' follow "$second" 'sudo apt install'
  check 'its files are as packed' inside "$second" '! dpkg --verify pritchel | grep .'
  check 'it plans a shoe' watch "$second" \
    'cd && pritchel plan near-fore.jpg --foot LF --style quarter-clipped -o shoe && test -s shoe/template.pdf'
  check 'its libraries are there' inside "$second" \
    'ldd /usr/bin/pritchel /usr/bin/pritchel-window /usr/libexec/pritchel-decode /usr/libexec/pritchel-phone > /tmp/libraries && ! grep "not found" /tmp/libraries'
  share=$second/usr/share
  check 'desktop entry' grep -qx 'application/x-pritchel-book=org.pritchel.Pritchel.desktop;' \
    "$share/applications/mimeinfo.cache"
  check 'icons' grep -q org.pritchel.Pritchel-symbolic "$share/icons/hicolor/icon-theme.cache"
  check 'MIME type' grep -q ':application/x-pritchel-book:\*.pritchel$' "$share/mime/globs2"
  check 'settings schema' grep -q org.pritchel.Pritchel "$share/glib-2.0/schemas/gschemas.compiled"
  # shellcheck disable=SC2013
  for language in $(grep -v '^#' "$first$here/po/LINGUAS"); do
    check "language: $language" speaks "$language"
  done

  check 'apt removes it' watch "$second" 'apt-get -q purge pritchel'
  check 'then nothing names it' nowhere_named
  check 'apt removes what came with it' watch "$second" 'apt-get -q autopurge'
  check 'then nothing is left' nothing_left
}

can_be_made
# much is written: not into memory
work=$(mktemp -d "${TMPDIR:-/var/tmp}/pritchel-bare-XXXXXX") || exit 1
trap leave EXIT
trap 'exit 130' HUP INT TERM
first=$work/first
second=$work/second

began=$(date +%s)
if ! make_bare "$first"; then
  leave
  trap - EXIT
  in_place 'mmdebstrap failed'
fi
cp -a "$first" "$second"
mkdir "$first$here"
commit archive HEAD | tar -x -C "$first$here"
echo "A bare Debian $(cat "$first/etc/debian_version") with $(commit log -1 --format='%h, %s')"
for step in $steps; do
  echo "== $step"
  "step_$step"
  echo "== $step: $(($(date +%s) - began)) s since the start"
done

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
