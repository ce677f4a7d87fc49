#include "core/document/Edit.h"
