#include "core/units/QuantityText.h"
