#include "core/shop/Shop.h"
