package wear

import "math"

// Constants are the guesses that a club starts with, and that its own figures
// outweigh as they come in. Spreads of wear are standard deviations of the
// natural logarithm of the loss per pass.
type Constants struct {
	Loss         float64 // usual loss per pass, mm
	ClubSpread   float64 // of clubs about the usual loss
	PlayerSpread float64 // of a club's players
	PairSpread   float64 // of one player's pairs
	SideSpread   float64 // of the sides of one pair
	Weight       float64 // degrees of freedom that the guessed spreads count for
	CaliperSD    float64 // of a sound reading, mm
	Unevenness   float64 // a stretch of Δ passes at λ has variance Unevenness·λ²·Δ
	SlipShare    float64 // share of bad readings
	SlipSD       float64 // standard deviation that a slip adds, mm
	WildRange    float64 // range, mm, over which a wholly wrong reading may lie
	NewSpread    float64 // of new heights about the nominal one, mm
	NominalSD    float64 // of a model's mean new height about the nominal one, mm
	NewWeight    float64 // runners that NewSpread counts for
}

// Defaults are chosen by simulation over a stated truth; guesses until the
// club's own data speak. The loss is common practice, no source.
func Defaults() Constants {
	return Constants{
		Loss: 0.019, ClubSpread: 0.25, PlayerSpread: 0.25, PairSpread: 0.12, SideSpread: 0.05,
		Weight: 5, CaliperSD: 0.06, Unevenness: 0.15, SlipShare: 0.03, SlipSD: 0.6, WildRange: 50,
		NewSpread: 0.3, NominalSD: 0.2, NewWeight: 6,
	}
}

func (c Constants) logLoss() float64 { return math.Log(c.Loss) }

// usualLoss is what a club without any history may expect.
func (c Constants) usualLoss() normal { return normal{c.logLoss(), c.ClubSpread * c.ClubSpread} }

// shrink mixes a variance estimated with so many degrees of freedom with the
// guess it starts from.
func (c Constants) shrink(guessSD, variance, freedom float64) float64 {
	return (c.Weight*guessSD*guessSD + freedom*variance) / (c.Weight + freedom)
}

// Basis is what a forecast rests on, and so what may be said.
type Basis int

const (
	// ClubRange: no height of this runner and fewer than two earlier ones. Give
	// the club's usual range and ask for a height; no date.
	ClubRange Basis = iota
	// EarlierRunners: no height of this runner, two or more earlier ones of the
	// player. Interval and date, said to be from earlier runners only.
	EarlierRunners
	// OwnHeights: heights of this runner. Interval and date.
	OwnHeights
)

const fewestEarlier = 2 // runners that carry a date without a height

// BasisOf tells what a forecast rests on, from the number of heights of the
// present runner (a measured height when new is none yet: it says nothing of
// its loss) and of the player's earlier runners.
func BasisOf(heights, earlierRunners int) Basis {
	switch {
	case heights > 0:
		return OwnHeights
	case earlierRunners >= fewestEarlier:
		return EarlierRunners
	}
	return ClubRange
}

// GivesDate tells whether a date may be said.
func (b Basis) GivesDate() bool { return b != ClubRange }
