#include "core/drawing/GrainFigure.h"
