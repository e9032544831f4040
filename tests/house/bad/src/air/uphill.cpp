#include "sky/colour.hpp"
