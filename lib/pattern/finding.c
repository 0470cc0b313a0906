/* Findings in words. Pieces and their parts are counted from 1, because names are the client's text. */
#include "examine.h"

#include <math.h>

#include "../base/fault.h"
#include "net.h"

/* %p, %a, %o: piece, part and other, counted; %e: the edges that part and other are; %v, %l: value and limit; %c: value
 * in percent; %x: where. */
static const char *const sentences[TAILOR_FINDING_COUNT] = {
    [TAILOR_FINDING_CROSSING] = "piece %p, %e: its outline crosses or touches itself at %x",
    [TAILOR_FINDING_WOUND] = "piece %p: its outline turns %v times round, not once and counter-clockwise",
    [TAILOR_FINDING_SEWN_TO_ITSELF] = "seam %o: %v mm of edge %a of piece %p would be sewn to themselves, about %x",
    [TAILOR_FINDING_SLIVER] = "piece %p, %e: only %v mm wide at %x: %l mm is least",
    [TAILOR_FINDING_POINT_OFF] = "piece %p, point %a: it lies %v mm off the outline, at %x: up to %l mm is allowed",
    [TAILOR_FINDING_MARK_OFF] = "piece %p, mark %a: it lies %v mm outside of the piece, at %x: up to %l mm is allowed",
    [TAILOR_FINDING_SEAM_OFF] = "seam %a: it is %v mm off its ease: up to %l mm is allowed",
    [TAILOR_FINDING_AREA_LOST] = "piece %p: %c % of the area that it has in the base is lost",
};
static const char PIECE_LOST[] = "piece %o of the base is not there";

int tailor_finding_refuses(int kind)
{
    return kind > 0 && kind < TAILOR_FINDING_COUNT && tailor_in_finding_refuses[kind];
}

static void say_place(tailor_fault *fault, tailor_point at)
{
    tailor_in_fault_say(fault, "x ");
    tailor_in_fault_say_number(fault, at.x, "");
    tailor_in_fault_say(fault, ", y ");
    tailor_in_fault_say_number(fault, at.y, "");
}

static void say_edges(tailor_fault *fault, const tailor_finding *f)
{
    tailor_in_fault_say(fault, f->part == f->other ? "edge " : "edges ");
    tailor_in_fault_say_number(fault, f->part + 1, "");
    if (f->part == f->other)
        return;
    tailor_in_fault_say(fault, " and ");
    tailor_in_fault_say_number(fault, f->other + 1, "");
}

/** What a sign stands for; 0 if it stands for itself. */
static int say_sign(tailor_fault *fault, char sign, const tailor_finding *f)
{
    switch (sign) {
    case 'p': tailor_in_fault_say_number(fault, f->piece + 1, ""); return 1;
    case 'a': tailor_in_fault_say_number(fault, f->part + 1, ""); return 1;
    case 'o': tailor_in_fault_say_number(fault, f->other + 1, ""); return 1;
    case 'v': tailor_in_fault_say_number(fault, f->value, ""); return 1;
    case 'l': tailor_in_fault_say_number(fault, f->limit, ""); return 1;
    case 'c': tailor_in_fault_say_number(fault, round(100 * f->value), ""); return 1;
    case 'e': say_edges(fault, f); return 1;
    case 'x': say_place(fault, f->at); return 1;
    default: return 0;
    }
}

tailor_status tailor_finding_fault(const tailor_finding *finding, tailor_fault *fault)
{
    if (!finding || finding->kind < 1 || finding->kind >= TAILOR_FINDING_COUNT || !sentences[finding->kind])
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "finding is NULL or of no kind that there is");
    const tailor_status status = tailor_finding_refuses(finding->kind) ? TAILOR_UNSOUND : TAILOR_OK;
    const double low = tailor_table_low(tailor_finding_table(), finding->kind);
    tailor_in_fault(fault, status, tailor_finding_table(), finding->kind, finding->value,
                    isnan(low) ? low : finding->limit, isnan(low) ? finding->limit : (double)NAN, "");
    const char *text = finding->kind == TAILOR_FINDING_AREA_LOST && finding->piece < 0 ? PIECE_LOST
                                                                                     : sentences[finding->kind];
    for (; *text; text++) {
        const char one[2] = {*text, '\0'};
        if (*text == '%' && say_sign(fault, text[1], finding))
            text++;
        else
            tailor_in_fault_say(fault, one);
    }
    return finding->piece < 0 ? status : tailor_in_fault_at(fault, status, (size_t)finding->piece);
}
