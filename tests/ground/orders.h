/* Orders to draft, for the ground tests: the same ones on every machine, from whole-number arithmetic. */
#ifndef TESTS_GROUND_ORDERS_H
#define TESTS_GROUND_ORDERS_H

#include <stdint.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "../support/agree.h"

typedef struct { uint64_t state; } dice;

/* Even in 0 .. 1, 2^20 steps: exact in binary. */
static inline double dice_even(dice *d)
{
    d->state = d->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(d->state >> 44) / 1048575.0;
}

/* The highest number of a field's choices, 0 for a number. */
static inline int choices(const tailor_table *table, int field)
{
    return tailor_table_choices(table, field) ? tailor_table_size(tailor_table_choices(table, field)) - 1 : 0;
}

/* Order `number`: chest, waist and stature of everyday size, every other measure left to the rules; each choice of
 * style, ease and cloth given now and then, from the middle of its range. */
static inline void order_make(int number, double *client, int count)
{
    const tailor_table *table = tailor_field_table();
    dice d = { (uint64_t)number * UINT64_C(0x9E3779B97F4A7C15) + 1 };
    tailor_fields_clear(client, (size_t)count);
    for (int field = 1; field < count; field++) {
        double low = tailor_table_low(table, field), high = tailor_table_high(table, field);
        double give = dice_even(&d), place = dice_even(&d);
        if (give > 0.15 || strcmp(tailor_table_text(table, field, TAILOR_COLUMN_GROUP), "measures") == 0)
            continue;
        if (choices(table, field))
            client[field] = 1 + (double)(int)(place * (choices(table, field) - 0.001));
        else if (low < high)
            client[field] = low + (high - low) * (0.4 + 0.2 * place);
    }
    client[TAILOR_FIELD_CHEST_GIRTH] = 900 + 300 * dice_even(&d);
    client[TAILOR_FIELD_WAIST_GIRTH] = client[TAILOR_FIELD_CHEST_GIRTH] - 150 + 100 * dice_even(&d);
    client[TAILOR_FIELD_STATURE] = 1650 + 250 * dice_even(&d);
    client[TAILOR_FIELD_BUTTONING] = 1 + number % choices(table, TAILOR_FIELD_BUTTONING);
    agree_with_itself(client);
}

#endif
