/* The leak sanitizer asks for this where it is built in. fontconfig keeps a cache that it takes for lost: see
 * fonts.supp. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void) { return "leak:libfontconfig\n"; }
