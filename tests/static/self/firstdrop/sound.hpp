#pragma once

#include <string>

#include "firstdrop/sound_too.hpp"
