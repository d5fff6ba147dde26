// A user of the library would have to install fmt.
#pragma once

#include <fmt/core.h>
