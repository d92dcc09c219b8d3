package desk

import (
	"reflect"
	"testing"
)

// A squad that is read in steps is told of as one in one go is, and no step reads more than
// some players.
func TestASquadInStepsIsTheSame(t *testing.T) {
	const players = 2*squadStep + 1
	s := newSeason(t, players)
	s.read(func(d *Desk) {
		whole, err := d.Spares(SparesAsked{Worst: true})
		if err != nil {
			t.Fatal(err)
		}
		var squad Squad
		steps := 0
		for ; !squad.Read(); steps++ {
			if err := d.readNext(&squad); err != nil {
				t.Fatal(err)
			}
		}
		parts, err := d.WorstSpares(&squad)
		if err != nil || steps != 3 || len(whole) != players || !reflect.DeepEqual(parts, whole) {
			t.Errorf("%d steps, %v: %+v; in one go %+v", steps, err, parts, whole)
		}
	})
}
