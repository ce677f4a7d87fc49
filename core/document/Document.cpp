#include "core/document/Document.h"
