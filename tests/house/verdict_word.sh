#!/usr/bin/env bash
# verdict_word.sh ROOT: fails if the program could tell somebody that a place or a path is "safe". It knows light,
# not ice, swell or rockfall, so that word is never its to say. Comments may use it.
set -euo pipefail
cd "$1"
folders=(src)
[ -d web ] && folders+=(web)
! grep -rnwi safe --include='*.[ch]pp' --include='*.ts' --include='*.tsx' --include='*.html' \
    --exclude-dir=node_modules --exclude-dir=dist "${folders[@]}" |
    sed -E 's,//[^"]*$,,' | grep -wi safe
