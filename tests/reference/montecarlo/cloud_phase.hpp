#pragma once

#include <functional>
#include <vector>

namespace gloam::montecarlo {

/// The phase function of cloud as a table, with what is sharper than a few degrees cut off: light that is
/// bent by less than `peak_deg` counts as not scattered at all. Without that, one collision in a thousand
/// carries all the light near the sun.
class CloudPhase {
  public:
    /// Of any phase function of the scattering angle in radians, in any unit.
    CloudPhase(const std::function<double(double)>& shape, double peak_deg);

    /// Mean over the sphere 1.
    double at(double cosine) const;
    double sampled_cosine(double u) const;
    double asymmetry() const { return asymmetry_; }
    /// Share of all scattering that was cut off: optical depths must be multiplied by what is left.
    double peak_share() const { return peak_share_; }

  private:
    std::vector<double> cosine_;  ///< falling from 1 to -1
    std::vector<double> value_;
    std::vector<double> share_;  ///< of scattering by less than the angle of the node
    double asymmetry_ = 0.0;
    double peak_share_ = 0.0;
};

/// Water droplets of effective radius 8 um and variance 0.1 (gamma distribution: Hansen and Travis 1974) at
/// 550 nm, refractive index 1.333, without the peak of 4 deg.
const CloudPhase& droplets();
/// Ice: a forward lobe and a weak backward one (Henyey-Greenstein 0.85 and -0.4, asymmetry 0.78 together).
const CloudPhase& ice();

}  // namespace gloam::montecarlo
