#include "core/shop/Presets.h"
