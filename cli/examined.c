#include "examined.h"

#include "complain.h"

#include <stdio.h>

enum { FOUND_MOST = 40, NAMES = 160 };

/* "forepart, hem and front_edge": what the finding is about, by name; its sentence only counts. */
static void names_of(const tailor_pattern *p, const tailor_pattern *base, const tailor_finding *f, char names[NAMES])
{
    const char *piece = f->piece >= 0 ? tailor_piece_name(p, f->piece) : tailor_piece_name(base, f->other);
    const char *part = NULL, *other = NULL;
    switch (f->kind) {
    case TAILOR_FINDING_CROSSING:
    case TAILOR_FINDING_SLIVER:
        other = f->part == f->other ? NULL : tailor_edge_name(p, f->piece, f->other);
        part = tailor_edge_name(p, f->piece, f->part);
        break;
    case TAILOR_FINDING_SEWN_TO_ITSELF:
        part = tailor_edge_name(p, f->piece, f->part);
        break;
    case TAILOR_FINDING_POINT_OFF: part = tailor_point_name(p, f->piece, f->part); break;
    case TAILOR_FINDING_MARK_OFF: part = tailor_mark_name(p, f->piece, f->part); break;
    case TAILOR_FINDING_SEAM_OFF: piece = tailor_seam_name(p, f->part); break;
    default: break;
    }
    snprintf(names, NAMES, "%s%s%s%s%s", piece ? piece : "", part ? ", " : "", part ? part : "", other ? " and " : "",
             other ? other : "");
}

static void tell(const char *source, const char *step, bool refused, const char *sentence, const char *names)
{
    complain_at(source, 0, "%s%s%s%s%s (%s)", step ? "step " : "", step ? step : "", step ? ": " : "",
                refused ? "" : "caution: ", sentence, names);
}

bool examined(const char *source, const char *step, const tailor_pattern *pattern, const tailor_pattern *base)
{
    tailor_finding found[FOUND_MOST];
    tailor_fault fault;
    size_t count = 0;
    char names[NAMES];
    bool good = true;
    tailor_status status = tailor_pattern_examine(pattern, base, found, FOUND_MOST, &count, &fault);
    if (status != TAILOR_OK && status != TAILOR_TOO_SMALL) {
        tell(source, step, true, fault.sentence, tailor_piece_name(pattern, fault.place - 1));
        return false;
    }
    for (size_t i = 0; i < count && i < FOUND_MOST; i++) {
        const bool refused = tailor_finding_fault(&found[i], &fault) != TAILOR_OK;
        names_of(pattern, base, &found[i], names);
        tell(source, step, refused, fault.sentence, names);
        good = good && !refused;
    }
    if (count > FOUND_MOST)
        complain_at(source, 0, "and %zu more of the kind", count - FOUND_MOST);
    return good;
}
