package standing

import (
	"slices"
	"testing"

	"steeltally/inventory"
)

// crowd is a club of so many players who are here and so many who left, the first of
// these last; they are numbered in that order from 1.
func crowd(here, gone int) []inventory.Member {
	var members []inventory.Member
	for i := range here + gone {
		m := inventory.Member{Player: inventory.Number(i + 1), Gone: i >= here}
		if m.Gone {
			m.Leaves = inventory.Timeline[bool]{{When: inventory.At(start.AddDate(0, 0, -i)), Value: true}}
		}
		members = append(members, m)
	}
	slices.Reverse(members)
	return members
}

func TestWhomTakesThoseWhoLeftWhileFewAreHere(t *testing.T) {
	for _, c := range []struct{ here, gone, want int }{
		{0, 0, 0}, {28, 5, 33}, {28, 37, enoughPlayers}, {enoughPlayers, 3, enoughPlayers}, {60, 9, 60}, {0, 70, enoughPlayers},
	} {
		got := Whom(crowd(c.here, c.gone))
		slices.Sort(got)
		want := make([]inventory.Number, c.want)
		for i := range want {
			want[i] = inventory.Number(i + 1)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d here, %d gone: %d are read, want the first %d: %v", c.here, c.gone, len(got), c.want, got)
		}
	}
}
