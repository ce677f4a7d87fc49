#include "core/lumber/Measure.h"
