/* help: written from the table of commands. */
#include "commands.h"
#include "complain.h"

#include <stdio.h>
#include <string.h>
#include <tailorgeom/base.h>

static void print_options(const option_row *const *options)
{
    for (; *options; options++) {
        const option_row *o = *options;
        char form[64], letter[8] = "    ";
        if (o->letter)
            snprintf(letter, sizeof letter, "-%c, ", o->letter);
        snprintf(form, sizeof form, "%s--%s%s%s", letter, o->name, o->argument ? " " : "",
                 o->argument ? o->argument : "");
        printf("  %-28s %s\n", form, o->sentence);
    }
}

void help_command(const command *c)
{
    printf("usage: tailorgeom %s%s %s\n\n%s\n", c->name, c->options[0] ? " [OPTION]..." : "", c->operand, c->sentence);
    if (c->more[0])
        printf("\n%s", c->more);
    printf("\noptions\n");
    print_options(c->options);
    print_options(common_options);
}

void help_program(void)
{
    printf("usage: tailorgeom COMMAND [OPTION]... [ARGUMENT]\n\n"
           "Drafts tailored coats from a client's card and measures them.\n\ncommands\n");
    for (size_t i = 0; i < command_count; i++)
        printf("  %-8s %s\n", command_table[i].name, command_table[i].sentence);
    printf("\noptions\n");
    print_options(common_options);
    printf("\nexit status: 0 done, 1 an order or a file was refused (why: on standard error), 2 wrong usage\n"
           "`tailorgeom help COMMAND` tells more.\n");
}

int run_help(const settings *s)
{
    const command *c = s->operand ? command_find(s->operand) : NULL;
    if (s->operand && !c)
        return EXIT_USAGE;
    if (c)
        help_command(c);
    else
        help_program();
    return EXIT_DONE;
}

void print_version(void)
{
    printf("tailorgeom %s, edition %d of the rules\n", tailor_version(), tailor_edition());
}
