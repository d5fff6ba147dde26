// The standard library here includes this header too, but other systems may not have it.
#pragma once

#include <unistd.h>
