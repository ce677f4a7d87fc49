#include "core/units/LengthText.h"
