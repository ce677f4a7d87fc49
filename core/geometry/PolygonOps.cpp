#include "core/geometry/PolygonOps.h"
