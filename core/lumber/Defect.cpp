#include "core/lumber/Defect.h"
