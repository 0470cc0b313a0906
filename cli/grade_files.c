/* The files of `tailorgeom grade`: a sheet a size, or the nest. */
#include "grade.h"

#include "complain.h"
#include "output.h"
#include "sheet_page.h"

#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

enum { FORMATS = 2, FILE_NAME = SIZE_TEXT + 8 };
static const struct {
    const char *ending;
    int format;
} formats[FORMATS] = {{".svg", TAILOR_SHEET_SVG}, {".pdf", TAILOR_SHEET_PDF}};

/* A size as a file name: what is not a letter, digit, point or hyphen becomes _; never begins with a point. */
static void file_name(const char *label, char name[FILE_NAME])
{
    static const char kept[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-_";
    snprintf(name, FILE_NAME, "%.*s", SIZE_TEXT, label);
    for (char *at = name; *at; at++)
        if (!strchr(kept, *at) || (at == name && *at == '.'))
            *at = '_';
}

/* What is drawn: a size, or all of them laid on each other. */
typedef struct picture {
    const graded_list *all;
    const graded *one;
    size_t base;
} picture;

static tailor_status draw(const picture *p, const tailor_page *page, output *file, tailor_fault *fault)
{
    const tailor_pattern *patterns[GRADED_MOST];
    const char *labels[GRADED_MOST];
    size_t count = 0, base = 0;
    if (p->one)
        return tailor_sheet_draw_pattern(graded_pattern(p->one), page, output_write, file, fault);
    for (size_t i = 0; i < p->all->count; i++) {
        if (!p->all->list[i].good)
            continue;
        base = i == p->base ? count : base;
        labels[count] = p->all->list[i].label;
        patterns[count++] = graded_pattern(&p->all->list[i]);
    }
    return tailor_sheet_draw_nest(patterns, labels, count, base, page, output_write, file, fault);
}

/* In all formats; the page is given back. */
static bool write_picture(const picture *p, tailor_page *page, const char *directory, const char *stem, bool quiet)
{
    output_set set = {.count = 0};
    bool good = page != NULL;
    for (size_t i = 0; good && i < FORMATS; i++) {
        char name[FILE_NAME + 8];
        tailor_fault fault;
        snprintf(name, sizeof name, "%s%s", stem, formats[i].ending);
        output *file = output_open_in(&set, directory, name);
        sheet_page_format(page, formats[i].format);
        tailor_status status = file ? draw(p, page, file, &fault) : TAILOR_OK;
        good = file && output_drawn(file, status, &fault);
    }
    good = good && output_commit(&set);
    for (size_t i = 0; good && !quiet && i < set.count; i++)
        printf("wrote %s\n", set.files[i].path);
    output_discard(&set);
    tailor_page_free(page);
    return good;
}

/* Two sizes that would be written to one file. */
static bool names_differ(const graded_list *all)
{
    for (size_t i = 0; i < all->count; i++)
        for (size_t k = 0; k < i; k++) {
            char one[FILE_NAME], other[FILE_NAME];
            file_name(all->list[i].label, one);
            file_name(all->list[k].label, other);
            if (strcmp(one, other) == 0) {
                complain("sizes %s and %s would be written to one file, %s.svg", all->list[k].label,
                         all->list[i].label, one);
                return false;
            }
        }
    return true;
}

bool grade_write(const graded_list *all, const sizes *t, const settings *s, bool quiet)
{
    const char *directory = s->output ? s->output : ".", *table = t->title[0] ? t->title : t->source;
    char title[SIZE_LINE + SIZE_TEXT + 32];
    if (!all->good)
        return true; /* why has been said */
    if (!names_differ(all) || !make_directory(directory))
        return false;
    if (s->nest) {
        size_t base = 0, nth = 0; /* the middle one of those that drafted */
        for (size_t i = 0; i < all->count; i++)
            if (all->list[i].good && nth++ <= (all->good - 1) / 2)
                base = i;
        const picture nest = {.all = all, .base = base};
        tailor_page *page = sheet_page_titled(table, s->print);
        if (page && tailor_page_set_text(page, TAILOR_PAGE_ALIGN, s->align, NULL) != TAILOR_OK) {
            tailor_page_free(page);
            page = NULL;
        }
        return write_picture(&nest, page, directory, "nest", quiet);
    }
    for (size_t i = 0; i < all->count; i++) {
        char name[FILE_NAME];
        const picture one = {.one = &all->list[i]};
        if (!all->list[i].good)
            continue;
        snprintf(title, sizeof title, "%s, size %s%s", table, all->list[i].label,
                 all->list[i].beyond != 0 ? ", extrapolated" : "");
        file_name(all->list[i].label, name);
        if (!write_picture(&one, sheet_page_titled(title, s->print), directory, name, quiet))
            return false;
    }
    return true;
}
