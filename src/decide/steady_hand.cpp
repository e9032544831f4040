#include "decide/steady_hand.hpp"

namespace gloam::decide {

Decision steady_answer(double odds, double threshold, std::optional<Decision> announced) {
    if (announced == Decision::kGo) {
        return odds > threshold - kReversalMargin ? Decision::kGo : Decision::kStay;
    }
    if (announced == Decision::kStay) {
        return odds > threshold + kReversalMargin ? Decision::kGo : Decision::kStay;
    }
    return odds > threshold ? Decision::kGo : Decision::kStay;
}

}  // namespace gloam::decide
