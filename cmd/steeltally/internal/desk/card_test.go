package desk

import (
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Passes that come on top of a grind are no work of their own on the card.
func TestOneMorePassIsNoWorkOfItsOwn(t *testing.T) {
	s := newSeason(t, 1) // two grinds on the set that is on
	one, five := 1, 5
	for _, step := range []struct {
		work deeds.Grind
		want string
	}{
		{deeds.Grind{Work: "hone"}, ", 3 on this set"},
		{deeds.Grind{Passes: inventory.Both[int]{Left: &five, Right: &five}}, ", 4 on this set"},
		{deeds.Grind{More: true, Passes: inventory.Both[int]{Right: &one}}, ", 4 on this set"},
		{deeds.Grind{More: true, Passes: inventory.Both[int]{Left: &one, Right: &one}}, ", 4 on this set"},
		{deeds.Grind{Passes: inventory.Both[int]{Left: &five, Right: &five}}, ", 5 on this set"},
	} {
		s.at(70, func(d *Desk) error {
			if _, err := d.Grind([]string{"2"}, nil, "", step.work); err != nil {
				return err
			}
			card, err := d.Card("2")
			if told := strings.Join(card.Lines, "\n"); !strings.Contains(told, step.want) {
				t.Errorf("after %+v: no %q in\n%s", step.work, step.want, told)
			}
			return err
		})
	}
}
