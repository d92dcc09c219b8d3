package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// BalanceMove is what uneven wear does to a skater's balance.
type BalanceMove struct {
	Move        Millimetre `json:"balance_move_mm"`  // of the balance point, positive to the toe
	PitchChange Millimetre `json:"pitch_change_mm"`  // of heel minus toe, positive forward
	RadiusRatio float64    `json:"radius_ratio"`     // radius after, divided by the one before
	After       Millimetre `json:"balance_after_mm"` // station of the balance point afterwards
}

// BalanceAt is the station of the lowest point for one radius and a pitch,
// −R·sin(atan((heel−toe)/span)): more steel at the heel puts it behind the
// middle. Radius and span are above 0.
func BalanceAt(radius, heelMinusToe, span Millimetre) (Millimetre, error) {
	if err := requirePositive("profile radius", radius); err != nil {
		return 0, err
	}
	pitch, err := PitchAngle(heelMinusToe, span)
	if err != nil {
		return 0, err
	}
	return -radius * Millimetre(sine(pitch)), nil
}

// WearMovesBalance is the movement of the balance point when grinding has taken
// more at one end than at the other, evenly in between: the pitch grows by toe
// loss minus heel loss. Losses are 0 or more, over a span between the two
// places; heelMinusToe is the pitch before.
func WearMovesBalance(radius, heelMinusToe, span, heelLoss, toeLoss Millimetre) (BalanceMove, error) {
	if err := cmp.Or(requireNotNegative("loss at the heel", heelLoss), requireNotNegative("loss at the toe", toeLoss)); err != nil {
		return BalanceMove{}, err
	}
	before, err := BalanceAt(radius, heelMinusToe, span)
	if err != nil {
		return BalanceMove{}, err
	}
	change := toeLoss - heelLoss
	after, err := BalanceAt(radius, heelMinusToe+change, span)
	if err != nil {
		return BalanceMove{}, err
	}
	return BalanceMove{Move: after - before, PitchChange: change, RadiusRatio: 1, After: after}, nil
}

// Meaning says in one sentence what the skater feels.
func (m BalanceMove) Meaning() string {
	whole := math.Round(float64(m.Move))
	if whole == 0 {
		return "The balance point has not moved."
	}
	where, tips := "to the toe", "the heel"
	if whole < 0 {
		where, tips = "to the heel", "the toe"
	}
	return fmt.Sprintf("The balance point has moved %.0f mm %s: level on the ice as before, the skater tips to %s.",
		math.Abs(whole), where, tips)
}
