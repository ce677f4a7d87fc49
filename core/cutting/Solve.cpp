#include "core/cutting/Solve.h"
