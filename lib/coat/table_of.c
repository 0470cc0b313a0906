#include <tailorgeom/cloth.h>
#include <tailorgeom/coat.h>

const tailor_table *tailor_table_of(int kind)
{
    switch (kind) {
    case TAILOR_TABLE_FIELD:
        return tailor_field_table();
    case TAILOR_TABLE_CONSTANT:
        return tailor_constant_table();
    case TAILOR_TABLE_QUANTITY:
        return tailor_quantity_table();
    case TAILOR_TABLE_PIECE:
        return tailor_piece_table();
    case TAILOR_TABLE_EDGE:
        return tailor_edge_table();
    case TAILOR_TABLE_POINT:
        return tailor_point_table();
    case TAILOR_TABLE_MARK:
        return tailor_mark_table();
    case TAILOR_TABLE_CHECK:
        return tailor_check_table();
    case TAILOR_TABLE_CLOTH:
        return tailor_cloth_table();
    case TAILOR_TABLE_FINDING:
        return tailor_finding_table();
    case TAILOR_TABLE_CAUTION:
        return tailor_caution_table();
    default:
        return NULL;
    }
}
