/// Fontconfig keeps patterns in a cache and reaches their parts by offsets, which the leak sanitizer cannot
/// follow: what it says of them is no leak. Layouts and pages of ours are not allocated by Fontconfig and
/// stay under watch. Without the sanitizer nobody calls this.
// NOLINTNEXTLINE(bugprone-reserved-identifier,readability-identifier-naming): the sanitizer's own name
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}
