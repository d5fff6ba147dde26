// Here the standard library reads it as well; elsewhere it may not be there at all.
#pragma once

#include <unistd.h>
