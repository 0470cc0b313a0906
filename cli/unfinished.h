/* unfinished: the files that must not outlive the program, told to its signal handler. */
#ifndef CLI_UNFINISHED_H
#define CLI_UNFINISHED_H

/** Install the handler: on a signal that ends the program it removes the noted files and ends it as the signal says. */
void unfinished_watch(void);

/** Keep signals off while a file and its note change together; then let them in again. Not nested. */
void unfinished_hold(void);
void unfinished_release(void);

/** Note a path, or strike it; between hold and release. The path is not copied: it must live until struck. */
void unfinished_add(const char *path);
void unfinished_remove(const char *path);

#endif
