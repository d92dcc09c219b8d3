package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// enoughPlayers is from how many players the club's usual wear is learnt: what more of
// them would tell moves no forecast by a pass, and takes time to read.
const enoughPlayers = 40

// Whom lists the players to be gathered: everybody who is with the club and, while those
// are not enough, who left it, the last first.
func Whom(members []inventory.Member) []inventory.Number {
	var here, gone []inventory.Member
	for _, m := range members {
		if m.Gone {
			gone = append(gone, m)
		} else {
			here = append(here, m)
		}
	}
	slices.SortStableFunc(gone, func(a, b inventory.Member) int { return lastLeft(b).Compare(lastLeft(a)) })
	most := min(len(gone), max(0, enoughPlayers-len(here)))
	var list []inventory.Number
	for _, m := range slices.Concat(here, gone[:most]) {
		list = append(list, m.Player)
	}
	return list
}

// lastLeft is when a player left the club last.
func lastLeft(m inventory.Member) time.Time {
	for _, left := range slices.Backward(m.Leaves) {
		if left.Value {
			return left.When.Start
		}
	}
	return time.Time{}
}
