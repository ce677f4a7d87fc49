#include "core/lumber/Board.h"
