// Package truth draws the steel of an invented club: how fast each player,
// pair and runner loses height, how a grind takes it off, and what a caliper
// shows of it. The forecast is tested over it and the demonstration book is
// made from it, so that both live in one world.
//
// Every function takes its random source: the same seed gives the same club.
package truth

import (
	"math"
	"math/rand/v2"

	"steeltally/geometry"
)

// Club is one club's steel as it truly is; only a simulation can see it.
type Club struct {
	Parameters
	LogWear      float64 // mean log loss per pass (mm) of this club's players
	PlayerSpread float64
	PairSpread   float64
	SideSpread   float64
	DamageShare  float64 // share of this club's sessions with nick work
	Caliper      Caliper
}

// Player is one player's true mean log loss per pass (mm).
type Player struct{ LogWear float64 }

// NewClub draws a club.
func (p Parameters) NewClub(r *rand.Rand) Club {
	return Club{
		Parameters:   p,
		LogWear:      p.LogWear + p.LogWearSpread*r.NormFloat64(),
		PlayerSpread: p.PlayerSpread.draw(r),
		PairSpread:   p.PairSpread.draw(r),
		SideSpread:   p.SideSpread.draw(r),
		DamageShare:  p.DamageShare.draw(r),
		Caliper: Caliper{
			Spread:     p.CaliperSpread[r.IntN(len(p.CaliperSpread))],
			Step:       p.CaliperStep[r.IntN(len(p.CaliperStep))],
			SlipSpread: float64(p.SlipSpread),
			WildShare:  p.WildShare,
		},
	}
}

// NewPlayer draws a player of the club.
func (c Club) NewPlayer(r *rand.Rand) Player {
	return Player{LogWear: c.LogWear + c.PlayerSpread*r.NormFloat64()}
}

func (s Range) draw(r *rand.Rand) float64 { return s.Low + (s.High-s.Low)*r.Float64() }

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
