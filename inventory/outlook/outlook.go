package outlook

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Outlook is what the steel in use comes to, at one instant. It can be asked by several
// at once.
type Outlook struct {
	at        time.Time
	constants wear.Constants
	calendar  calendar
	members   []*Member
	roles     [2]*learnt                                   // skaters, goalkeepers
	passes    map[inventory.Number][sessionKinds][]float64 // by pair
	unworked  []inventory.Unworked
}

// learnt is a role's record with what it teaches.
type learnt struct {
	*role
	wear.Knowledge
}

// Look learns from the club's players, all of them, and its schedule. Those of whom
// nothing can be learnt are left out, and so are those whose steel could not be gathered.
func Look(members []*Member, schedule Schedule, c wear.Constants, ungathered ...inventory.Unworked) (*Outlook, error) {
	o := &Outlook{
		at: schedule.at, constants: c, calendar: schedule.coming, members: members,
		passes: map[inventory.Number][sessionKinds][]float64{}, unworked: ungathered,
	}
	o.keep(func(m *Member) error { return o.sample(m, schedule) })
	for i := range o.roles {
		var err error
		if o.roles[i], err = o.learn(i == goalkeepers); err != nil {
			return nil, err
		}
	}
	return o, nil
}

// sample counts the passes of a player's sessions, by pair.
func (o *Outlook) sample(m *Member, schedule Schedule) error {
	for _, pair := range m.pairs {
		o.passes[pair.Number] = samples(schedule.held, m.groundOn(pair.Number, o.at))
	}
	return nil
}

const (
	skaters = iota
	goalkeepers
)

func (o *Outlook) ofRole(goalkeeper bool) []*Member {
	return slices.DeleteFunc(slices.Clone(o.members), func(m *Member) bool { return m.Goalkeeper() != goalkeeper })
}

func (o *Outlook) roleOf(m *Member) *learnt {
	if m.Goalkeeper() {
		return o.roles[goalkeepers]
	}
	return o.roles[skaters]
}

// LookBack tells how the last forecasts made at half of a runner's life did: the
// skaters' first.
func (o *Outlook) LookBack(last int) (wear.SelfCheck, error) {
	var sum wear.SelfCheck
	for _, r := range o.roles {
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
func (o *Outlook) costs(m *Member, pair inventory.Number) ([]wear.SessionPasses, error) {
	var others [][sessionKinds][]float64
	for _, other := range o.members {
		if other == m || other.Goalkeeper() != m.Goalkeeper() {
			continue
		}
		if first := other.firstPair(); first != nil {
			others = append(others, o.passes[first.Number])
		}
	}
	return costs(o.constants, o.passes[pair], others)
}
