#pragma once

#include <erfa.h>
