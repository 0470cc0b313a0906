/* Reading files of truths: see truth.h. Included by the tests that use it. */
#include "truth.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "close.h"

void truth_broken(const truth_case *one, const char *why)
{
    fail_msg("%s:%d: case %s: %s", one->file, one->line, one->name, why);
}

const char *truth_given(const truth_case *one, const char *key)
{
    for (size_t i = 0; i < one->given_count; i++)
        if (strcmp(one->given[i].key, key) == 0) return one->given[i].text;
    return NULL;
}

void truth_numbers(const truth_case *one, const char *text, double *numbers, size_t count)
{
    char *end = NULL;
    for (size_t i = 0; i < count; i++) {
        numbers[i] = strtod(text, &end);
        if (end == text) truth_broken(one, "too few numbers");
        text = end;
    }
    if (text[strspn(text, " ")] != '\0') truth_broken(one, "more than the numbers that belong here");
}

/* "KEY = TEXT" */
static void truth_read_pair(const truth_case *one, const char *text, truth_pair *list, size_t *count)
{
    const char *equals = strstr(text, " = ");
    if (!equals || equals == text || (size_t)(equals - text) >= sizeof list->key) truth_broken(one, "not KEY = TEXT");
    if (*count == TRUTH_PAIRS) truth_broken(one, "too many lines");
    truth_pair *pair = &list[(*count)++];
    memset(pair, 0, sizeof *pair);
    memcpy(pair->key, text, (size_t)(equals - text));
    snprintf(pair->text, sizeof pair->text, "%s", equals + 3);
    pair->within = NAN;
}

static void truth_read_line(truth_case *one, const char *text)
{
    if (strncmp(text, "case ", 5) == 0 && one->name[0] == '\0')
        snprintf(one->name, sizeof one->name, "%s", text + 5);
    else if (strncmp(text, "given ", 6) == 0)
        truth_read_pair(one, text + 6, one->given, &one->given_count);
    else if (strncmp(text, "expect ", 7) == 0)
        truth_read_pair(one, text + 7, one->expect, &one->expect_count);
    else if (strncmp(text, "within ", 7) == 0 && one->expect_count > 0 &&
             isnan(one->expect[one->expect_count - 1].within)) {
        truth_numbers(one, text + 7, &one->expect[one->expect_count - 1].within, 1);
        if (!(one->expect[one->expect_count - 1].within >= 0)) truth_broken(one, "within less than nothing");
    } else if (strncmp(text, "because ", 8) == 0 && one->because[0] == '\0')
        snprintf(one->because, sizeof one->because, "%s", text + 8);
    else
        truth_broken(one, "a line that is no case, given, expect, within or because, or stands in the wrong place");
}

static void truth_finish(const truth_case *one, void (*run)(const truth_case *one))
{
    if (one->name[0] == '\0') truth_broken(one, "no name");
    if (one->expect_count == 0) truth_broken(one, "nothing is expected");
    if (one->because[strspn(one->because, " ")] == '\0') truth_broken(one, "no because: who says so?");
    run(one);
}

static FILE *truth_open(const char *file)
{
    char path[TRUTH_LINE];
    const char *source = getenv("TAILOR_SOURCE");
    static const char *const up[] = {"", "../", "../../", "../../../"};
    if (source) {
        snprintf(path, sizeof path, "%s/tests/truth/%s", source, file);
        return fopen(path, "r");
    }
    for (size_t i = 0; i < sizeof up / sizeof *up; i++) {
        snprintf(path, sizeof path, "%stests/truth/%s", up[i], file);
        FILE *open = fopen(path, "r");
        if (open) return open;
    }
    return NULL;
}

size_t truth_run(const char *file, void (*run)(const truth_case *one))
{
    static truth_case one;
    char text[TRUTH_LINE];
    size_t cases = 0;
    int line = 0;
    FILE *in = truth_open(file);
    if (!in) fail_msg("tests/truth/%s cannot be opened: set TAILOR_SOURCE to the project's directory", file);
    memset(&one, 0, sizeof one);
    for (;;) {
        const char *got = fgets(text, sizeof text, in);
        line++;
        if (got && text[0] == '#') continue;
        if (got && strchr(text, '\n') == NULL && !feof(in)) fail_msg("%s:%d: a line too long", file, line);
        text[strcspn(text, "\r\n")] = '\0';
        if (got && text[strspn(text, " ")] != '\0') {
            if (one.line == 0) {
                one.file = file;
                one.line = line;
            }
            truth_read_line(&one, text);
            continue;
        }
        if (one.line != 0) {
            truth_finish(&one, run);
            cases++;
            memset(&one, 0, sizeof one);
        }
        if (!got) break;
    }
    fclose(in);
    return cases;
}
