/* tailorgeom: the command line of libtailorgeom. This file reads the arguments by the table in commands.c and hands
 * them to a command. The program never calls setlocale, so numbers are read and written with a point everywhere. */
#define _POSIX_C_SOURCE 200809L
#include "cloths.h"
#include "commands.h"
#include "complain.h"
#include "output.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>

/* What the reading of the options leads to: go on, or end with an exit status. */
enum { GO_ON = -1 };

static int usage(const command *c)
{
    complain("see `tailorgeom %s%s`", c ? "help " : "--help", c ? c->name : "");
    return EXIT_USAGE;
}

static bool take_print(settings *s, const char *name)
{
    static const struct {
        const char *name;
        int print;
    } prints[] = {{"mm", TAILOR_PRINT_MM}, {"in", TAILOR_PRINT_INCH_8}, {"in16", TAILOR_PRINT_INCH_16}};
    for (size_t i = 0; i < sizeof prints / sizeof prints[0]; i++) {
        if (strcmp(name, prints[i].name) == 0) {
            s->print = prints[i].print;
            return true;
        }
    }
    complain("--print takes mm, in or in16, not %s", name);
    return false;
}

static bool take_jobs(settings *s, const char *typed)
{
    size_t digits = strspn(typed, "0123456789");
    long jobs = digits > 0 && digits < 6 && !typed[digits] ? strtol(typed, NULL, 10) : 0;
    s->jobs = (int)jobs;
    if (jobs >= 1 && jobs <= JOBS_MOST)
        return true;
    complain("--jobs takes a number from 1 to %d, not %s", JOBS_MOST, typed);
    return false;
}

static int take_option(settings *s, const command *c, int id)
{
    switch (id) {
    case OPTION_OUTPUT: s->output = optarg; return GO_ON;
    case OPTION_JSON: s->json = true; return GO_ON;
    case OPTION_HOUSE: s->house = optarg; return GO_ON;
    case OPTION_RESOLVED: s->resolved = true; return GO_ON;
    case OPTION_WANT: s->want = optarg; return GO_ON;
    case OPTION_JOBS: return take_jobs(s, optarg) ? GO_ON : usage(c);
    case OPTION_RESUME: s->resume = true; return GO_ON;
    case OPTION_DATE: s->date = optarg; return GO_ON;
    case OPTION_CLOTHS: s->cloths = optarg; return GO_ON;
    case OPTION_SECTION: s->section = true; return GO_ON;
    case OPTION_SIZES: s->sizes = optarg; return GO_ON;
    case OPTION_FIT: s->fit = optarg; return GO_ON;
    case OPTION_CARD: s->card = optarg; return GO_ON;
    case OPTION_BASE: s->base = true; return GO_ON;
    case OPTION_NEST: s->nest = true; return GO_ON;
    case OPTION_ALIGN: s->align = optarg; return GO_ON;
    case OPTION_RULES: s->rules = optarg; return GO_ON;
    case OPTION_ANONYMOUS: s->anonymous = true; return GO_ON;
    case OPTION_SHEETS: s->sheets = optarg; return GO_ON;
    case OPTION_PRINT: return take_print(s, optarg) ? GO_ON : usage(c);
    case OPTION_BY:
        if (s->by_count == BY_MOST) {
            complain("--by stands at most %d times", BY_MOST);
            return usage(c);
        }
        s->by[s->by_count++] = optarg;
        return GO_ON;
    case OPTION_ANGLE: s->angle = optarg; return GO_ON;
    case OPTION_WIDTH: s->width = optarg; return GO_ON;
    case OPTION_HAIR_WIDTH: s->hair_width = optarg; return GO_ON;
    case OPTION_GAP: s->gap = optarg; return GO_ON;
    case OPTION_JOIN: s->join = optarg; return GO_ON;
    case OPTION_ITERATIONS: s->iterations = optarg; return GO_ON;
    case OPTION_DOUBLED: s->doubled = true; return GO_ON;
    case OPTION_ALIKE: s->alike = true; return GO_ON;
    case OPTION_HELP:
        if (c)
            help_command(c);
        else
            help_program();
        return EXIT_DONE;
    case OPTION_VERSION: print_version(); return EXIT_DONE;
    default: return usage(c);
    }
}

/* getopt's two forms of the table: long options, and ":o:" for the short ones. */
static void getopt_tables(const command *c, struct option *longs, char *shorts)
{
    const option_row *const *parts[] = {c ? c->options : NULL, common_options};
    if (!c)
        *shorts++ = '+'; /* without a command: stop at the first word, which is to be one */
    *shorts++ = ':';
    for (size_t part = 0; part < 2; part++) {
        for (const option_row *const *o = parts[part]; o && *o; o++) {
            *longs++ = (struct option){(*o)->name, (*o)->argument ? required_argument : no_argument, NULL, (*o)->id};
            if ((*o)->letter)
                *shorts++ = (*o)->letter;
            if ((*o)->letter && (*o)->argument)
                *shorts++ = ':';
        }
    }
    *longs = (struct option){NULL, 0, NULL, 0};
    *shorts = '\0';
}

/* A short option's letter is its id's other name. */
static int id_of(const command *c, int found)
{
    const option_row *const *parts[] = {c ? c->options : common_options, common_options};
    for (size_t part = 0; part < 2; part++)
        for (const option_row *const *o = parts[part]; *o; o++)
            if ((*o)->letter && (*o)->letter == found)
                return (*o)->id;
    return found;
}

static int read_options(settings *s, const command *c, int argc, char **argv)
{
    struct option longs[OPTIONS_MOST + 3];
    char shorts[2 * OPTIONS_MOST + 4];
    getopt_tables(c, longs, shorts);
    opterr = 0;
    optind = 0; /* begin anew: the program's own options were read before the command's */
    for (int found; (found = getopt_long(argc, argv, shorts, longs, NULL)) != -1;) {
        if (found == '?' || found == ':') {
            const char letter[] = {'-', (char)optopt, '\0'}; /* of a short option; ids of long ones lie below */
            const char *word = optopt >= ' ' ? letter : argv[optind - 1];
            complain(found == ':' ? "%s needs an argument" : "unknown option %s", word);
            return usage(c);
        }
        int end = take_option(s, c, id_of(c, found));
        if (end != GO_ON)
            return end;
    }
    return GO_ON;
}

static int run_command(const command *c, int argc, char **argv)
{
    settings s = {.print = TAILOR_PRINT_MM};
    int end = read_options(&s, c, argc, argv);
    if (end != GO_ON)
        return end;
    int operands = argc - optind;
    if (optind < argc)
        s.operand = argv[optind++];
    if (optind < argc && strchr(c->operand, ' ')) /* a second one stands in its help */
        s.second = argv[optind++];
    if (optind < argc) {
        const char *last = strrchr(c->operand, ' ');
        complain("one %s too many: %s", last ? last + 1 : c->operand, argv[optind]);
        return usage(c);
    }
    if (operands < c->operands_needed) {
        complain("%s needs %s", c->name, c->operand);
        return usage(c);
    }
    if (s.cloths && !cloths_read(s.cloths))
        return EXIT_REFUSED;
    return c->run(&s);
}

static int run_program(int argc, char **argv)
{
    settings s = {.print = TAILOR_PRINT_MM};
    int end = read_options(&s, NULL, argc, argv);
    if (end != GO_ON)
        return end;
    if (optind >= argc) {
        complain("no command given");
        return usage(NULL);
    }
    const command *c = command_find(argv[optind]);
    return c ? run_command(c, argc - optind, argv + optind) : usage(NULL);
}

int main(int argc, char **argv)
{
    output_prepare();
    int status = run_program(argc, argv);
    if (!output_finish_stdout() && status == EXIT_DONE)
        status = EXIT_REFUSED;
    return status;
}
