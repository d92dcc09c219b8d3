package truth

import (
	"math"

	"steeltally/geometry"
)

// Range is a span from which a club's own figure is drawn evenly.
type Range struct{ Low, High float64 }

// Parameters say how clubs differ. The spreads of wear are standard deviations
// of the natural logarithm of the loss per pass.
type Parameters struct {
	LogWear       float64             // mean of log loss per pass (mm) over clubs
	LogWearSpread float64             // between clubs
	PlayerSpread  Range               // between the players of a club
	PairSpread    Range               // between the pairs of one player
	SideSpread    Range               // of each side within its pair
	NewHeight     geometry.Millimetre // mean height of a runner when new
	NewSpread     geometry.Millimetre // its standard deviation
	ChangeHeight  geometry.Millimetre // at which steel is changed
	UsualPasses   int                 // passes of a usual grind
	GrindSpread   float64             // relative spread of the loss in one usual grind
	SharedShare   float64             // share of that variance which left and right have in common
	DamageShare   Range               // share of sessions with nick work
	DamagePasses  [2]int              // fewest and most extra passes of nick work
	CaliperSpread []float64           // standard deviations of a caliper (mm), one drawn for a club
	CaliperStep   []float64           // steps (mm) that its readings are rounded to, one drawn
	SlipSpread    geometry.Millimetre // standard deviation that a slip of the caliper adds
	WildShare     float64             // share of bad readings that are wrong altogether
}

// Stated is the ground truth that the forecast's coverage and error are
// promised on. It is an assumption chosen to be plausible; loss per pass and
// passes a grind are common practice, no source.
func Stated() Parameters {
	return Parameters{
		LogWear:       math.Log(0.019),
		LogWearSpread: 0.2,
		PlayerSpread:  Range{0.15, 0.35},
		PairSpread:    Range{0.09, 0.14},
		SideSpread:    Range{0.03, 0.07},
		NewHeight:     21,
		NewSpread:     0.25,
		ChangeHeight:  15.5,
		UsualPasses:   5,
		GrindSpread:   0.15,
		SharedShare:   0.5,
		DamageShare:   Range{0.02, 0.10},
		DamagePasses:  [2]int{10, 20},
		CaliperSpread: []float64{0.03, 0.055, 0.08},
		CaliperStep:   []float64{0.01, 0.1},
		SlipSpread:    0.6,
		WildShare:     1.0 / 3,
	}
}
