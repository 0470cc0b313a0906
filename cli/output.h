/* output: files written whole or not at all.
 *
 * A file is written beside its place under a name of its own (`pattern.svg.a1B2c3.part`), brought to the disk, and
 * only then renamed over its place, so nobody ever finds half a file under the final name. Whatever ends the program
 * on the way, a signal included, takes the unfinished file away again. Several files can be finished together: all are
 * written before the first is renamed.
 *
 *     output_set set = {0};
 *     output *file = output_open(&set, "sheets/pattern.svg");
 *     ... output_write(file, data, bytes) ...
 *     bool good = file && output_close(file) && output_commit(&set);   // says what went wrong
 *     output_discard(&set);                                            // whatever is not committed
 */
#ifndef CLI_OUTPUT_H
#define CLI_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <tailorgeom/base.h>

enum { OUTPUT_FILES_MOST = 4, OUTPUT_PATH_MOST = 4096 };

typedef struct output {
    FILE *stream;                 /* open while it is written */
    int trouble;                  /* errno of the first write that failed, 0 for none */
    bool pending;                 /* the unfinished file exists */
    char path[OUTPUT_PATH_MOST];  /* where it belongs */
    char part[OUTPUT_PATH_MOST];  /* where it is written */
} output;

typedef struct output_set {
    output files[OUTPUT_FILES_MOST];
    size_t count;
} output_set;

/** Begin a file. NULL when it cannot be made; the reason has been said. */
output *output_open(output_set *set, const char *path);
/** The path of a file in a directory; "." leaves it out. False when it is too long; said. */
bool output_path(const char *directory, const char *name, char path[OUTPUT_PATH_MOST]);
/** Begin a file in a directory. NULL when it cannot be made; said. */
output *output_open_in(output_set *set, const char *directory, const char *name);
/** Take bytes; the shape of a tailor_writer. 0 when all were taken. */
int output_write(void *file, const void *data, size_t bytes);
/** Finish writing one file and bring it to the disk. False when anything failed since output_open; said. */
bool output_close(output *file);
/** The same for one that a sheet was drawn into, with how that went. */
bool output_drawn(output *file, tailor_status status, const tailor_fault *fault);
/** Put all closed files in their places. False when one could not be; said. */
bool output_commit(output_set *set);
/** Take away every file that was not committed. */
void output_discard(output_set *set);

/** Make a directory and those above it, where they are missing. False when it cannot be; said. */
bool make_directory(const char *path);

/** At the very beginning: unfinished files go when a signal ends the program; a file-size limit is an error to report;
 *  a closed standard stream is not mistaken for the next file opened. */
void output_prepare(void);
/** Say that standard output cannot be written, and why (an errno); only the first call says it. */
void complain_stdout(int error);
/** At the very end: everything printed has reached standard output. False when it has not; said. */
bool output_finish_stdout(void);

#endif
