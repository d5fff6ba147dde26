#pragma once

#include <chrono>
