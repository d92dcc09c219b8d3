package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Learnt is what the club's steel teaches of wear at an instant. It can be asked by
// several at once, also about steel that was ground or measured since.
type Learnt struct {
	At       time.Time
	Members  []*Member
	Unworked []inventory.Unworked // players of whom nothing can be told
	Roles    [2]*Role             // skaters, goalkeepers: never pooled with each other
}

const (
	skaters = iota
	goalkeepers
)

// Learn learns from the club's players, all of them. Those of whom nothing can be learnt
// are left out, and so are those whose steel could not be gathered.
func Learn(members []*Member, at time.Time, c wear.Constants, ungathered ...inventory.Unworked) (*Learnt, error) {
	l := &Learnt{At: at, Members: members, Unworked: ungathered}
	for i := range l.Roles {
		var err error
		if l.Roles[i], err = l.learn(i == goalkeepers, c); err != nil {
			return nil, err
		}
	}
	return l, nil
}

// learn learns from a role. Where that can't be done, whoever can't be learnt from alone
// is left out; where nobody is the cause alone, the whole role is.
func (l *Learnt) learn(goalkeeper bool, c wear.Constants) (*Role, error) {
	all, err := learnFrom(l.ofRole(goalkeeper), l.At, c)
	if err == nil {
		return all, nil
	}
	l.Keep(func(m *Member) error {
		if m.Goalkeeper() != goalkeeper {
			return nil
		}
		_, err := learnFrom([]*Member{m}, l.At, c)
		return err
	})
	if all, err = learnFrom(l.ofRole(goalkeeper), l.At, c); err == nil {
		return all, nil
	}
	l.Keep(func(m *Member) error {
		if m.Goalkeeper() == goalkeeper {
			return err
		}
		return nil
	})
	return learnFrom(nil, l.At, c)
}

func learnFrom(members []*Member, at time.Time, c wear.Constants) (r *Role, err error) {
	err = inventory.Guard(func() error {
		r = recordOf(members, at)
		r.Knowledge, err = c.Learn(r.record)
		return err
	})
	return r, err
}

// Keep leaves out the players with whom a step fails.
func (l *Learnt) Keep(step func(*Member) error) {
	l.Members = slices.DeleteFunc(slices.Clone(l.Members), func(m *Member) bool {
		err := inventory.Guard(func() error { return step(m) })
		if err != nil {
			l.Unworked = append(l.Unworked, m.Unworked(l.At, err))
		}
		return err != nil
	})
}

func (l *Learnt) ofRole(goalkeeper bool) []*Member {
	return slices.DeleteFunc(slices.Clone(l.Members), func(m *Member) bool { return m.Goalkeeper() != goalkeeper })
}

// RoleOf is what is known of a player's role.
func (l *Learnt) RoleOf(player *inventory.Player) *Role {
	if player.Goalkeeper() {
		return l.Roles[goalkeepers]
	}
	return l.Roles[skaters]
}
