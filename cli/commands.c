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
    into_card = {OPTION_OUTPUT, "output", 'o', "CARD2", "write the card with the fitting into CARD2 (beside CARD)"},
    overlay_into = {OPTION_OUTPUT, "output", 'o', "DIR", "write the overlay of both drafts into DIR, made if missing"},
    page_into = {OPTION_OUTPUT, "output", 'o', "DIR|FILE", "write the page into DIR, or as FILE.pdf, .svg or .png (.)"},
    dated = {OPTION_DATE, "date", 0, "YYYY-MM-DD", "the day of the fitting, where the notes do not tell it"},
    into_book = {OPTION_OUTPUT, "output", 'o', "DIR", "write the folders into DIR, which must be new or empty"},
    which_sheets = {OPTION_SHEETS, "sheets", 0, "S1,S2,...",
                    "sheets of each order: svg, pdf, png, dxf, ticket (svg,pdf,ticket)"},
    with_sizes = {OPTION_SIZES, "sizes", 0, "TABLE", "the size table that the columns size and fit speak of"},
    in_summary = {OPTION_WANT, "want", 0, "Q1,Q2,...|all", "the quantities in the summary (the main ones)"},
    resume_book = {OPTION_RESUME, "resume", 0, NULL, "go on where a run into the same DIR was broken off"},
    resume = {OPTION_RESUME, "resume", 0, NULL, "go on where a run into the same FILE was broken off"},
    canvas_angle = {OPTION_ANGLE, "angle", 0, "DEG", "lean of the warp to the break line (the order's canvas_angle)"},
    canvas_width = {OPTION_WIDTH, "width", 0, "W", "width of the canvas between its selvedges (750 mm)"},
    hair_width = {OPTION_HAIR_WIDTH, "hair-width", 0, "W", "width of the haircloth (500 mm)"},
    canvas_gap = {OPTION_GAP, "gap", 0, "G", "least distance between pieces (5 mm)"},
    canvas_join = {OPTION_JOIN, "join", 0, "LAP", "allow a join, lapped by so much, where a piece is too wide"},
    iterations = {OPTION_ITERATIONS, "iterations", 0, "N", "how long to search for a shorter lay (1000)"},
    doubled = {OPTION_DOUBLED, "doubled", 0, NULL, "lay the cloth folded lengthwise, each place cutting a pair"},
    alike = {OPTION_ALIKE, "alike", 0, NULL, "cut both sides of the canvas alike instead of as mirrored pairs"},
    with_cloths = {OPTION_CLOTHS, "cloths", 0, "FILE", "a table of your own cloths, beside those of `cloth list`"},
    with_section = {OPTION_SECTION, "section", 0, NULL, "draw the section of the roll"},
    section_into = {OPTION_OUTPUT, "output", 'o', "DIR", "write the section into DIR, made if missing (default: .)"},
    resolved = {OPTION_RESOLVED, "resolved", 0, NULL, "print a card with every value in use instead"},
    graded_into = {OPTION_OUTPUT, "output", 'o', "DIR", "write a sheet a size, the nest, or the changes into DIR"},
    some_sizes = {OPTION_SIZES, "sizes", 0, "S1,S2,...", "sizes, or measures as chest_girth=1013 (all of the fit)"},
    of_fit = {OPTION_FIT, "fit", 0, "NAME", "the fit: short, regular, long, as the table calls it (regular)"},
    style_of = {OPTION_CARD, "card", 0, "CARD", "style, ease and cloth as on CARD; for --base the client"},
    to_base = {OPTION_BASE, "base", 0, NULL, "the size nearest to the client on the card, and what to change on it"},
    as_nest = {OPTION_NEST, "nest", 0, NULL, "lay all sizes on each other, on one sheet"},
    by_rules = {OPTION_RULES, "rules", 0, "FILE", "grade a pattern file by the rules in FILE; sizes are steps, -1,0,1"},
    into_pattern = {OPTION_OUTPUT, "output", 'o', "FILE", "write the pattern file into FILE (standard output)"},
    aligned = {OPTION_ALIGN, "align", 0, "POINT", "the point that they are laid on each other at (a usual one)"},
    anonymous = {OPTION_ANONYMOUS, "anonymous", 0, NULL, "leave the client's name off the sheets; the order's stays"},
    help = {OPTION_HELP, "help", 'h', NULL, "print this help"},
    version = {OPTION_VERSION, "version", 0, NULL, "print the version and the edition of the rules"};

static const char about_cards[] =
    "CARD is a file of sections in brackets with lines `key = value`; - is standard input.\n"
    "Lengths are typed as 1016, 1016 mm, 101.6 cm or 40 in, 40 3/8 in; bare numbers are mm.\n";

static const char about_tables[] =
    "IN.csv is a table of orders: a header with the names of fields, then a line for each order; - is standard\n"
    "input. Cells hold lengths with or without unit, and choices by name; an empty one is not given. Other columns\n"
    "are carried through as they stand, then come the quantities, the names of cautions, status and message. A\n"
    "refused order never stops the run.\n";

static const char about_notes[] =
    "NOTES is a file of lines like `let out side seam 6 mm each`, `shorten sleeve left 10`, `break_rise = -2 mm`\n"
    "and `date = 2026-11-25`; `tailorgeom list notes` shows the phrases. CARD2 is CARD, byte for byte, and at its\n"
    "end a section [fitting N]; without -o it is CARD-fitting-N beside CARD. No file is overwritten. Every command\n"
    "takes a card with its fittings; one with a line `left_out = yes` stays on the card and does not count.\n";

static const char about_diff[] =
    "Prints every field, constant and quantity that differs: before (CARD1), after (CARD2) and the difference. The\n"
    "overlay (.svg, .pdf and .png) has each piece of both drafts laid on one another, true to size.\n";

static const char about_ticket[] =
    "Prints what the workroom needs, in the order of the work, and writes it as one page of A4: ticket.pdf. With\n"
    "--json everything stands in JSON, and no page is written unless -o is given too. A coat of which a check fails\n"
    "gets no ticket.\n";

static const char about_canvas[] =
    "The table tells what is cut off, and how much more that is than with the body canvas on the straight grain.\n"
    "The same call gives the same layout. Ctrl-C ends the search: the best layout so far is written, status 1.\n";

static const char about_roll[] =
    "Stretch and bending are mechanics of the numbers of cloth and canvas. Whether the lapel holds at the drawn\n"
    "break is a law fitted to a simulation: no real coat has confirmed its millimetres, and outside its range there\n"
    "are none.\n";

static const char about_cloth[] =
    "`cloth = NAME` and `canvas = NAME` on a card, in [cloth] or [house], or in columns of a table, stand for the\n"
    "numbers of that cloth; a number that the card gives itself goes before. FILE is a CSV with a column name and\n"
    "one for each property that `cloth show NAME` lists.\n";

static const char about_import[] =
    "Every path is a piece, its id the name: one closed outline of M, L, H, V, C, Q and Z. The svg element has\n"
    "a width in mm, cm or in, and a viewBox. Outlines are cut into edges at their corners: edge_1 and so on, with\n"
    "points where they begin: corner_1 and so on.\n";

static const char about_sizes[] =
    "TABLE is a size table: a CSV file with the columns size, fit and fields, or the name of one built in:\n"
    "ansur2_men, merrow_and_vane, vincent_systems, vincent_youths. Each size is drafted by itself. Between\n"
    "sizes measures are interpolated (~), up to a step beyond the table extrapolated (!); what is given stays (=):\n"
    "chest_girth=1013+arm_length=640. With --base -o the changes are written as notes for `tailorgeom fit`.\n"
    "With --rules TABLE is a pattern file, FILE a CSV file with piece, point, dx, dy (mm a step), and axis.\n";

static const char about_books[] =
    "ORDERS.csv is a table as `tailorgeom help rows` tells of. Its column order names each order's folder; a\n"
    "column name heads the sheets; with --sizes the columns size and fit name a size, and measures that are given\n"
    "go before the size's. Each folder holds pattern.json and the sheets; beside the folders stand summary.csv\n"
    "and manifest.sha256. A refused order never stops the run.\n";

const command command_table[] = {
    {"draft", "CARD", 1, "draft the coat on a card: sheets at true size, or everything as JSON", about_cards,
     {&into_directory, &as_json, &anonymous, &with_house, &with_cloths, &print_as}, run_draft},
    {"compare", "CARD", 1, "compare the seven buttonings, or other values, on one card", about_cards,
     {&by_field, &into_file, &as_json, &anonymous, &with_house, &with_cloths, &print_as}, run_compare},
    {"check", "CARD", 1, "show all checks of a coat, and which values were given and which assumed", about_cards,
     {&resolved, &with_house, &with_cloths, &print_as}, run_check},
    {"fit", "CARD NOTES", 2, "write a card anew with what a fitting has altered", about_notes,
     {&into_card, &dated, &with_house, &with_cloths}, run_fit},
    {"diff", "CARD1 CARD2", 2, "show what differs between two cards: values, quantities, pieces", about_diff,
     {&overlay_into, &as_json, &anonymous, &with_house, &with_cloths, &print_as}, run_diff},
    {"ticket", "CARD", 1, "print the ticket for the workroom: measures, pieces, buttons, canvas, cautions",
     about_ticket, {&page_into, &as_json, &anonymous, &with_house, &with_cloths, &print_as}, run_ticket},
    {"rows", "IN.csv", 1, "draft and measure a table of orders, a line each, into another table", about_tables,
     {&wanted, &into_table, &jobs, &with_house, &with_cloths, &resume}, run_rows},
    {"canvas", "CARD", 1, "lay the canvas of a coat at its angle to the warp: table and layout sheet", about_canvas,
     {&canvas_angle, &canvas_width, &hair_width, &doubled, &alike, &canvas_gap, &canvas_join, &iterations,
      &into_directory, &as_json, &anonymous, &with_house, &with_cloths, &print_as},
     run_canvas},
    {"roll", "CARD", 1, "tell how the lapel rolls, and which assumption each number rests on", about_roll,
     {&with_section, &section_into, &as_json, &anonymous, &with_house, &with_cloths, &print_as}, run_roll},
    {"cloth", "list|show [NAME]", 1, "list cloths and canvases by name, or show one", about_cloth,
     {&as_json, &with_cloths}, run_cloth},
    {"import", "FILE.svg", 1, "take outlines from an SVG file into a pattern file", about_import, {&into_pattern},
     run_import},
    {"grade", "TABLE", 1, "draft the sizes of a size table: measures, sheets, a nest; or a client's nearest size",
     about_sizes,
     {&some_sizes, &of_fit, &style_of, &to_base, &as_nest, &aligned, &by_rules, &graded_into, &as_json, &with_house,
      &with_cloths, &print_as},
     run_grade},
    {"book", "ORDERS.csv", 1, "draft an order book: a folder with sheets for each order, and a summary", about_books,
     {&into_book, &which_sheets, &anonymous, &with_sizes, &in_summary, &jobs, &with_house, &with_cloths,
      &resume_book}, run_book},
    {"list", "fields|choices|constants|quantities|checks|notes", 1,
     "list what a card and a fitting's notes can say, and what a coat is measured by", "",
     {&as_json}, run_list},
    {"help", "[COMMAND]", 0, "print help, of the program or of one command", "", {NULL}, run_help},
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
