#!/usr/bin/env bash
# includes.sh ROOT MAP: prints every #include under ROOT/src that a module may not make, and fails if there is one.
# MAP has one line a module: its name, then the modules it may include.
set -euo pipefail
cd "$1"
bad=0
while read -r module depends; do
    [ -d "src/$module" ] || continue
    find_in() { grep -rnE "$2" --include="$1" "src/$module"; }
    # A header of ours shows no third party, or all who include it pay for it. In angle brackets, the standard
    # library's own names have neither dot nor slash.
    if find_in '*.[ch]pp' '^ *# *include "' | grep -vE "\"(${module}${depends:+|${depends// /|}})/" ||
        find_in '*.hpp' '^ *# *include <.*[./]' | grep -vE '<(tl/expected|nlohmann/json_fwd)\.hpp>'; then
        bad=1
    fi
done <"$2"
exit $bad
