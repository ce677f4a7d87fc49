#include "core/job/JobFile.h"
