#include "decide/steady_hand.hpp"

namespace gloam::decide {

double held_odds(double odds, std::optional<Decision> announced) {
    if (announced == Decision::kGo) {
        return odds + kReversalMargin;
    }
    return announced == Decision::kStay ? odds - kReversalMargin : odds;
}

}  // namespace gloam::decide
