#include "core/papers/PageModel.h"
