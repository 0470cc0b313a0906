#include "quantity.h"

int tailor_in_quantity_needs(int quantity)
{
    return quantity > 0 && quantity < TAILOR_QUANTITY_COUNT ? tailor_in_quantities[quantity].needs : 0;
}
