package outlook

import (
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// learn learns from a role. Where that can't be done, whoever can't be learnt from alone
// is left out; where nobody is the cause alone, the whole role is.
func (o *Outlook) learn(goalkeeper bool) (*learnt, error) {
	all, err := o.learnFrom(o.ofRole(goalkeeper))
	if err == nil {
		return all, nil
	}
	o.keep(func(m *Member) error {
		if m.Goalkeeper() != goalkeeper {
			return nil
		}
		_, err := o.learnFrom([]*Member{m})
		return err
	})
	if all, err = o.learnFrom(o.ofRole(goalkeeper)); err == nil {
		return all, nil
	}
	o.keep(func(m *Member) error {
		if m.Goalkeeper() == goalkeeper {
			return err
		}
		return nil
	})
	return o.learnFrom(nil)
}

func (o *Outlook) learnFrom(members []*Member) (l *learnt, err error) {
	err = inventory.Guard(func() error {
		r := recordOf(members, o.at)
		var knowledge wear.Knowledge
		knowledge, err = o.constants.Learn(r.record)
		l = &learnt{r, knowledge}
		return err
	})
	return l, err
}

// keep leaves out the players with whom a step fails.
func (o *Outlook) keep(step func(*Member) error) {
	o.members = slices.DeleteFunc(slices.Clone(o.members), func(m *Member) bool {
		err := inventory.Guard(func() error { return step(m) })
		if err != nil {
			o.unworked = append(o.unworked, m.Unworked(o.at, err))
		}
		return err != nil
	})
}

// unworkedOf are those of some players, or of all, that were left out.
func (o *Outlook) unworkedOf(players []inventory.Number) []inventory.Unworked {
	return slices.DeleteFunc(slices.Clone(o.unworked), func(u inventory.Unworked) bool { return !meant(u.About, players) })
}
