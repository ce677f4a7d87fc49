#include "core/drawing/DefectSymbol.h"
