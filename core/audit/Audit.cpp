#include "core/audit/Audit.h"
