#include "ui/paint/PagePainter.h"
