// Package outlook says what comes next of the steel in use: which set is due when,
// what to measure, whose steel won't last, what to buy. It turns the record's states
// into the plain numbers of package wear and its answers back into the club's words
// and days. It is pure.
//
// A player is a player in one role: goalkeepers are never pooled with skaters. What a
// player is asked about is the set on his first pair; sets on his other pairs are told
// beside it.
package outlook

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Outlook is what the steel in use comes to, at one instant. It can be asked by several
// at once.
type Outlook struct {
	*standing.Learnt
	constants wear.Constants
	calendar  calendar
	passes    map[inventory.Number][sessionKinds][]float64 // by pair
}

// Look turns what was learnt of the club's steel to its schedule. Those of whom nothing
// can be told are left out.
func Look(learnt *standing.Learnt, schedule Schedule, c wear.Constants) *Outlook {
	o := &Outlook{Learnt: learnt, constants: c, calendar: schedule.coming, passes: map[inventory.Number][sessionKinds][]float64{}}
	o.Keep(func(m *standing.Member) error { return o.sample(m, schedule) })
	return o
}

// sample counts the passes of a player's sessions, by pair.
func (o *Outlook) sample(m *standing.Member, schedule Schedule) error {
	for _, pair := range m.Pairs {
		o.passes[pair.Number] = samples(schedule.held, groundOn(m, pair.Number, o.At))
	}
	return nil
}

// LookBack tells how the last forecasts made at half of a runner's life did: the
// skaters' first.
func (o *Outlook) LookBack(last int) (wear.SelfCheck, error) {
	var sum wear.SelfCheck
	for _, r := range o.Roles {
		check, err := r.LookBack(last - sum.Checked)
		if err != nil {
			return sum, err
		}
		sum.Checked += check.Checked
		sum.Held += check.Held
	}
	return sum, nil
}

// Until is the last day of the schedule; zero where nothing is to come.
func (o *Outlook) Until() time.Time { return o.calendar.last() }

// costs are the passes that a session of each kind takes of what is on a pair.
func (o *Outlook) costs(m *standing.Member, pair inventory.Number) ([]wear.SessionPasses, error) {
	var others [][sessionKinds][]float64
	for _, other := range o.Members {
		if other == m || other.Goalkeeper() != m.Goalkeeper() {
			continue
		}
		if skates := other.SkatesOn(); skates != nil {
			others = append(others, o.passes[skates.Number])
		}
	}
	return costs(o.constants, o.passes[pair], others)
}

// unworkedOf are those of some players, or of all, that were left out.
func (o *Outlook) unworkedOf(players []inventory.Number) []inventory.Unworked {
	return slices.DeleteFunc(slices.Clone(o.Unworked), func(u inventory.Unworked) bool { return !meant(u.About, players) })
}
