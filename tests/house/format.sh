#!/usr/bin/env bash
# format.sh ROOT: fails if a source differs from what clang-format 16 makes of it. To mend: clang-format-16 -i FILE
set -euo pipefail
cd "$1"
find src tools tests bench -name '*.[ch]pp' -print0 | xargs -0 clang-format-16 --dry-run --Werror --ferror-limit=1
