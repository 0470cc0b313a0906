/* complain: every message of the program. They go to standard error, one sentence a line, each beginning with the
 * program's name and, where there is one, the file and line it is about: `tailorgeom: CARD:LINE: sentence`. */
#ifndef CLI_COMPLAIN_H
#define CLI_COMPLAIN_H

/** What the process says at its end. */
enum {
    EXIT_DONE = 0,    /* everything asked for was done */
    EXIT_REFUSED = 1, /* an order, a card or a file was refused; why stands on standard error */
    EXIT_USAGE = 2    /* the command line itself is wrong */
};

#if defined(__GNUC__)
#define CLI_FORMAT(text, rest) __attribute__((format(printf, text, rest)))
#else
#define CLI_FORMAT(text, rest)
#endif

/** `tailorgeom: sentence` */
void complain(const char *format, ...) CLI_FORMAT(1, 2);
/** `tailorgeom: SOURCE:LINE: sentence`; a line of 0 is left out, and so is a NULL source. */
void complain_at(const char *source, int line, const char *format, ...) CLI_FORMAT(3, 4);

#endif
