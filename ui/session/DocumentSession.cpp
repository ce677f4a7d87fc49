#include "ui/session/DocumentSession.h"
