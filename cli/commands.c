#include "commands.h"

#include "complain.h"
#include "nearest.h"

#include <string.h>

static const option_row
    into_directory = {OPTION_OUTPUT, "output", 'o', "DIR", "write the sheets into DIR, made if missing (default: .)"},
    into_file = {OPTION_OUTPUT, "output", 'o', "FILE", "draw the fronts side by side into FILE: .svg, .pdf or .png"},
    as_json = {OPTION_JSON, "json", 0, NULL, "print JSON on standard output"},
    with_house = {OPTION_HOUSE, "house", 0, "FILE", "the house's file: its constants, and fields the card leaves open"},
    print_as = {OPTION_PRINT, "print", 0, "mm|in|in16", "print lengths in mm, in inches to 1/8, or to 1/16 (mm)"},
    by_field = {OPTION_BY, "by", 0, "FIELD=V1,V2,...", "exchange a field or house constant; repeated: all pairs"},
    into_table = {OPTION_OUTPUT, "output", 'o', "FILE", "write the table into FILE (standard output)"},
    wanted = {OPTION_WANT, "want", 0, "Q1,Q2,...|all", "the quantities to measure (all)"},
    jobs = {OPTION_JOBS, "jobs", 'j', "N", "how many orders to draft at the same time (as many as processors)"},
    into_book = {OPTION_OUTPUT, "output", 'o', "DIR", "write the folders into DIR, which must be new or empty"},
    which_sheets = {OPTION_SHEETS, "sheets", 0, "svg,pdf,png,dxf", "the sheets of each order (svg,pdf)"},
    with_sizes = {OPTION_SIZES, "sizes", 0, "TABLE", "the size table that the columns size and fit speak of"},
    in_summary = {OPTION_WANT, "want", 0, "Q1,Q2,...|all", "the quantities in the summary (the main ones)"},
    resume_book = {OPTION_RESUME, "resume", 0, NULL, "go on where a run into the same DIR was broken off"},
    resume = {OPTION_RESUME, "resume", 0, NULL, "go on where a run into the same FILE was broken off"},
    resolved = {OPTION_RESOLVED, "resolved", 0, NULL, "print a card with every value in use instead"},
    help = {OPTION_HELP, "help", 'h', NULL, "print this help"},
    version = {OPTION_VERSION, "version", 0, NULL, "print the version and the edition of the rules"};

static const char about_cards[] =
    "CARD is a file of sections in brackets with lines `key = value`; - is standard input.\n"
    "Lengths are typed as 1016, 1016 mm, 101.6 cm or 40 in, 40 3/8 in; bare numbers are mm.\n";

static const char about_tables[] =
    "IN.csv is a table of orders: a header with the names of fields, then a line for each order; - is standard\n"
    "input. Cells hold lengths with or without unit, and choices by name; an empty one is not given. Other columns\n"
    "are carried through as they stand, then come the quantities, status and message. A refused order never stops\n"
    "the run.\n";

static const char about_books[] =
    "ORDERS.csv is a table as `tailorgeom help rows` tells of. Its column order names each order's folder; a\n"
    "column name heads the sheets; with --sizes the columns size and fit name a size, and measures that are given\n"
    "go before the size's. Each folder holds pattern.json and the sheets; beside the folders stand summary.csv\n"
    "and manifest.sha256. A refused order never stops the run.\n";

const command command_table[] = {
    {"draft", "CARD", true, "draft the coat on a card: sheets at true size, or everything as JSON", about_cards,
     {&into_directory, &as_json, &with_house, &print_as}, run_draft},
    {"compare", "CARD", true, "compare the five buttonings, or other values, on one card", about_cards,
     {&by_field, &into_file, &as_json, &with_house, &print_as}, run_compare},
    {"check", "CARD", true, "show all checks of a coat, and which values were given and which assumed", about_cards,
     {&resolved, &with_house, &print_as}, run_check},
    {"rows", "IN.csv", true, "draft and measure a table of orders, a line each, into another table", about_tables,
     {&wanted, &into_table, &jobs, &with_house, &resume}, run_rows},
    {"book", "ORDERS.csv", true, "draft an order book: a folder with sheets for each order, and a summary", about_books,
     {&into_book, &which_sheets, &with_sizes, &in_summary, &jobs, &with_house, &resume_book}, run_book},
    {"list", "fields|constants|quantities|checks", true, "list what a card can say and what a coat is measured by", "",
     {&as_json}, run_list},
    {"help", "[COMMAND]", false, "print help, of the program or of one command", "", {NULL}, run_help},
};
const size_t command_count = sizeof command_table / sizeof command_table[0];

const option_row *const common_options[] = {&help, &version, NULL};

const command *command_find(const char *name)
{
    const char *names[sizeof command_table / sizeof command_table[0]];
    for (size_t i = 0; i < command_count; i++) {
        names[i] = command_table[i].name;
        if (strcmp(name, names[i]) == 0)
            return &command_table[i];
    }
    const char *near = nearest_name(name, names, command_count);
    complain("unknown command %s%s%s%s", name, near ? ": did you mean " : "; `tailorgeom help` lists them",
             near ? near : "", near ? "?" : "");
    return NULL;
}
