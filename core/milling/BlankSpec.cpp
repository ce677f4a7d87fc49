#include "core/milling/BlankSpec.h"
