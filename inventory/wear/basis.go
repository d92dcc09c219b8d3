package wear

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
