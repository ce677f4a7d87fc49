#include "core/planning/Planner.h"
