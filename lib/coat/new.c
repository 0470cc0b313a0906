/* Making a coat: resolve or accept, draft or take over, measure, check, and look for cautions. */
#include <math.h>
#include <string.h>

#include <tailorgeom/roll.h>

#include "../base/fault.h"
#include "../base/memory.h"
#include "../draft/assemble.h"
#include "../measure/body.h"
#include "../order/choice.h"
#include "../order/house.h"
#include "../pattern/build.h"
#include "coat.h"

enum { ALIGNMENT = 16, KNOWN_EXTENT = TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION };

static size_t aligned(size_t bytes) { return (bytes + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT; }

/** The order's part of a coat, before there is a block for it. */
typedef struct order {
    tailor_house house;
    double fields[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    int newer;
} order;

/** One block with room for a pattern of so many bytes; NULL when there is no memory. */
static tailor_coat *begin(const order *o, int extent, size_t pattern_bytes)
{
    size_t line_offset = aligned(sizeof(tailor_coat));
    size_t line_bytes = extent & TAILOR_EXTENT_SECTION ? TAILOR_ROLLED_LINE_COUNT * sizeof(tailor_point) : 0;
    size_t pattern_offset = aligned(line_offset + line_bytes);
    tailor_coat *coat = o->house.allocator.allocate(o->house.allocator.user, pattern_offset + pattern_bytes);
    if (!coat)
        return NULL;
    memset(coat, 0, offsetof(tailor_coat, fields));
    coat->allocator = o->house.allocator;
    coat->extent = extent;
    coat->newer = o->newer;
    coat->line_offset = line_offset;
    coat->pattern_offset = pattern_offset;
    memcpy(coat->fields, o->fields, sizeof coat->fields);
    memcpy(coat->origins, o->origins, sizeof coat->origins);
    memcpy(coat->constants, o->house.constants, sizeof coat->constants);
    return coat;
}

/** Measure what lies in the block and hand the coat out, or give the block back. */
static tailor_status finish(tailor_coat *made, tailor_pattern *pattern, tailor_coat **coat, tailor_fault *fault)
{
    struct tailor_in_section line = {(tailor_point *)(void *)((char *)made + made->line_offset),
                                     TAILOR_ROLLED_LINE_COUNT, 0};
    tailor_fault why;
    memset(&why, 0, sizeof why);
    tailor_status status = tailor_in_measure_coat(pattern, made->fields, made->constants,
                                                  made->extent & TAILOR_EXTENT_SECTION ? &line : NULL, made->quantities,
                                                  made->check_values, made->check_limits, &why);
    if (fault && status != TAILOR_OK)
        *fault = why;
    if (status != TAILOR_OK && status != TAILOR_CHECK_FAILED) {
        tailor_coat_free(made);
        return status;
    }
    if (status == TAILOR_CHECK_FAILED)
        made->fault = why;
    made->line_count = line.count;
    tailor_in_cautioned cautioned = tailor_in_coat_cautioned(made);
    made->toile_count = tailor_in_toile_fields(made->fields, made->origins, made->toile);
    made->caution_count = tailor_in_cautions_find(&cautioned, made->cautions);
    if (made->toile_count) /* a pattern that was taken over may be so already, and stays so */
        pattern->toile_only = 1;
    *coat = made;
    return status;
}

static tailor_status no_memory(tailor_fault *fault)
{
    return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the coat");
}

static tailor_status draft(const order *o, int extent, tailor_coat **coat, tailor_fault *fault)
{
    int whole = extent & TAILOR_EXTENT_MAKE ? TAILOR_IN_WHOLE : TAILOR_IN_NET;
    tailor_coat *made = begin(o, extent, tailor_in_draft_bytes(whole));
    if (!made)
        return no_memory(fault);
    tailor_pattern *pattern = NULL;
    tailor_status status =
        tailor_in_draft_coat(made->fields, made->constants, whole, (char *)made + made->pattern_offset,
                             tailor_in_no_allocator(), &pattern, fault);
    if (status != TAILOR_OK) {
        tailor_coat_free(made);
        return status;
    }
    made->drafted = 1;
    made->edition = tailor_edition();
    return finish(made, pattern, coat, fault);
}

static tailor_status check_call(tailor_coat **coat, int extent, tailor_fault *fault)
{
    if (!coat)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "coat is NULL: nowhere to put it");
    if (extent & ~KNOWN_EXTENT)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, extent, 0, KNOWN_EXTENT,
                               "the extent %v has bits that this library does not know: %l to %h is allowed");
    return TAILOR_OK;
}

tailor_status tailor_coat_new(const tailor_house *house, const double *client, size_t client_count, int extent,
                              tailor_coat **coat, tailor_fault *fault)
{
    order o;
    tailor_status status = check_call(coat, extent, fault);
    if (status != TAILOR_OK)
        return status;
    tailor_in_house_copy(house, &o.house);
    o.newer = 0;
    status = tailor_in_house_resolve(&o.house, client, client_count, o.fields, o.origins, fault);
    return status == TAILOR_OK ? draft(&o, extent, coat, fault) : status;
}

static tailor_status accept(const tailor_house *house, const double *fields, const int32_t *origins, size_t count,
                            order *o, tailor_fault *fault)
{
    tailor_in_house_copy(house, &o->house);
    return tailor_in_house_accept(&o->house, fields, origins, count, o->fields, o->origins, &o->newer, fault);
}

tailor_status tailor_coat_again(const tailor_house *house, const double *fields, const int32_t *origins, size_t count,
                                int extent, tailor_coat **coat, tailor_fault *fault)
{
    order o;
    tailor_status status = check_call(coat, extent, fault);
    if (status == TAILOR_OK)
        status = accept(house, fields, origins, count, &o, fault);
    return status == TAILOR_OK ? draft(&o, extent, coat, fault) : status;
}

/** A pattern of another style is not this order's coat, whatever its checks would say. */
static tailor_status check_style(const tailor_pattern *pattern, const double *fields, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        int drawn = tailor_pattern_style(pattern, field);
        if (!drawn || isnan(fields[field]) || drawn == (int)fields[field])
            continue;
        tailor_in_fault(fault, TAILOR_CONTRADICTION, table, field, drawn, fields[field], fields[field],
                        "the pattern was drafted with %n ");
        tailor_in_fault_say_choice(fault, field, drawn);
        tailor_in_fault_say(fault, ", the order has ");
        tailor_in_fault_say_choice(fault, field, fields[field]);
        return TAILOR_CONTRADICTION;
    }
    return TAILOR_OK;
}

tailor_status tailor_coat_of_pattern(const tailor_house *house, const double *fields, const int32_t *origins,
                                     size_t count, const tailor_pattern *pattern, tailor_coat **coat,
                                     tailor_fault *fault)
{
    order o;
    if (!pattern)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "pattern is NULL: nothing to measure");
    tailor_status status = check_call(coat, TAILOR_EXTENT_NET, fault);
    if (status == TAILOR_OK)
        status = accept(house, fields, origins, count, &o, fault);
    if (status == TAILOR_OK)
        status = check_style(pattern, o.fields, fault);
    if (status != TAILOR_OK)
        return status;
    int extent = TAILOR_EXTENT_SECTION;
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++)
        if (tailor_piece_number(pattern, i) == TAILOR_PIECE_FACING)
            extent |= TAILOR_EXTENT_MAKE;
    size_t bytes = tailor_in_pattern_bytes_of(pattern);
    tailor_coat *made = begin(&o, extent, bytes);
    if (!made)
        return no_memory(fault);
    made->edition = tailor_pattern_edition(pattern);
    tailor_pattern *copy =
        tailor_in_pattern_copy_into(pattern, (char *)made + made->pattern_offset, bytes, tailor_in_no_allocator());
    return finish(made, copy, coat, fault);
}

void tailor_coat_free(tailor_coat *coat)
{
    if (coat)
        coat->allocator.release(coat->allocator.user, coat);
}
