/* commands: the one table that the command line is read by and that help is written from. */
#ifndef CLI_COMMANDS_H
#define CLI_COMMANDS_H

#include <stdbool.h>
#include <stddef.h>

enum { BY_MOST = 8, JOBS_MOST = 256 };

/** What the command line asked for. Strings are argv's own. */
typedef struct settings {
    const char *operand; /* CARD, TABLE or COMMAND; NULL when left out */
    const char *second;  /* the second operand of a command that has two */
    const char *date;    /* --date; NULL when not given */
    const char *output;  /* -o; NULL when not given */
    const char *house;   /* --house; NULL when not given */
    const char *by[BY_MOST];
    size_t by_count;
    const char *want; /* --want; NULL when not given */
    const char *cloths; /* --cloths; NULL when not given */
    const char *sheets; /* --sheets; NULL when not given */
    const char *sizes;  /* --sizes; NULL when not given */
    int jobs;  /* --jobs; 0 when not given */
    int print; /* a TAILOR_PRINT_ */
    const char *angle, *width, *hair_width, *gap, *join, *iterations; /* of canvas, as typed; NULL when not given */
    bool doubled, alike;
    bool anonymous;
    bool json;
    bool resolved;
    bool resume;
    bool section;
    const char *fit, *card, *align, *rules; /* of grade; NULL when not given */
    bool base, nest;
} settings;

enum {
    OPTION_OUTPUT = 1,
    OPTION_JSON,
    OPTION_HOUSE,
    OPTION_PRINT,
    OPTION_BY,
    OPTION_RESOLVED,
    OPTION_WANT,
    OPTION_JOBS,
    OPTION_RESUME,
    OPTION_DATE,
    OPTION_ANGLE,
    OPTION_WIDTH,
    OPTION_HAIR_WIDTH,
    OPTION_GAP,
    OPTION_JOIN,
    OPTION_ITERATIONS,
    OPTION_DOUBLED,
    OPTION_ALIKE,
    OPTION_CLOTHS,
    OPTION_SECTION,
    OPTION_SIZES,
    OPTION_FIT,
    OPTION_CARD,
    OPTION_BASE,
    OPTION_NEST,
    OPTION_ALIGN,
    OPTION_RULES,
    OPTION_SHEETS,
    OPTION_ANONYMOUS,
    OPTION_HELP,
    OPTION_VERSION
};

typedef struct option_row {
    int id;
    const char *name; /* long form, without its dashes */
    char letter;      /* short form, 0 for none */
    const char *argument; /* NULL for none */
    const char *sentence;
} option_row;

enum { OPTIONS_MOST = 16 };

typedef struct command {
    const char *name;
    const char *operand; /* as help shows it */
    int operands_needed;
    const char *sentence;
    const char *more; /* further sentences of its own help */
    const option_row *options[OPTIONS_MOST]; /* ends with NULL */
    int (*run)(const settings *s);
} command;

extern const command command_table[];
extern const size_t command_count;
/** Options that every command has, and the program without one; ends with NULL. */
extern const option_row *const common_options[];

/** The command of that name, NULL if there is none; then the nearest has been suggested on standard error. */
const command *command_find(const char *name);

/* The commands; each returns an exit status and says itself why it is not EXIT_DONE. */
int run_draft(const settings *s);
int run_compare(const settings *s);
int run_check(const settings *s);
int run_fit(const settings *s);
int run_diff(const settings *s);
int run_ticket(const settings *s);
int run_roll(const settings *s);
int run_cloth(const settings *s);
int run_rows(const settings *s);
int run_canvas(const settings *s);
int run_book(const settings *s);
int run_list(const settings *s);
int run_grade(const settings *s);
int run_import(const settings *s);
int run_help(const settings *s);

/** Help on standard output: of the program, or of one command. */
void help_program(void);
void help_command(const command *c);
/** The one-line version. */
void print_version(void);

#endif
