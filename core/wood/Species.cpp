#include "core/wood/Species.h"
