/* resolved: an order as a card that leaves nothing open. */
#ifndef CLI_RESOLVED_H
#define CLI_RESOLVED_H

#include "drafted.h"

/** Print the card on standard output: the edition, the client's texts, and every value with its origin in a comment.
 *  False when a value would not read back as itself, which would be a defect; said. */
bool resolved_print(const card *c, const drafted *d);

#endif
