package truth

import "math/rand/v2"

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
