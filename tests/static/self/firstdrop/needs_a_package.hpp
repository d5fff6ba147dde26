// A library's user would have to install fmt.
#pragma once

#include <fmt/core.h>
