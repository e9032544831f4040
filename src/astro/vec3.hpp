#pragma once

#include <cmath>

namespace gloam::astro {

/// A vector in space; the frame and the unit are said where one is used.
struct Vec3 {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;

    friend constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend constexpr Vec3 operator*(double factor, Vec3 a) {
        return {factor * a.x, factor * a.y, factor * a.z};
    }
};

constexpr double dot(Vec3 a, Vec3 b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

inline double length(Vec3 a) {
    return std::sqrt(dot(a, a));
}

}  // namespace gloam::astro
