package travel

import (
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// pairs lists the player's other pairs that are whole and have steel in them.
func (s *search) pairs() []Option {
	var options []Option
	for _, role := range []inventory.Role{inventory.RoleSpare, inventory.RoleThird, inventory.RoleFirst} {
		pair, err := inventory.PairInRole(s.v, s.player, role, s.v.At)
		if err != nil || pair.Number == s.breakage.Pair.Number {
			continue
		}
		if option, ok := s.pair(pair, role); ok {
			options = append(options, option)
		}
	}
	return options
}

// pair is one pair as a way back onto the ice.
func (s *search) pair(pair *inventory.Pair, role inventory.Role) (Option, bool) {
	c := newCheck(s.v, s.player, pair)
	left, right := pair.SeatAt(inventory.Left, s.v.At).Runner, pair.SeatAt(inventory.Right, s.v.At).Runner
	if left == 0 || right == 0 || !s.usable(c.pieces()...) {
		return Option{}, false
	}
	option := Option{Way: ByPair, What: role.Pair(), Place: standing.PlaceOf(s.v, pair.Number, s.v.At), Seconds: pairSeconds, Numbers: []inventory.Number{pair.Number}}
	s.lackOpen(&option, c.pieces()...)
	if role == inventory.RoleSpare {
		report := SparePair(s.v, s.player)
		option.lackCauses(slices.DeleteFunc(report.Causes, func(c Cause) bool { return c.Fix == FixPlace || c.Fix == FixHeight }))
		if report.Declined {
			option.Lacks = append(option.Lacks, "he would rather not")
		}
	}
	for _, side := range inventory.Sides() {
		here, there := s.v.HeightOf(pair.SeatAt(side, s.v.At).Runner).Now, s.v.HeightOf(s.breakage.Pair.SeatAt(side, s.v.At).Runner).Now
		if here != nil && there != nil {
			difference := *here - *there
			option.Felt.Put(side, &difference)
		}
	}
	option.lackPlace()
	option.lackHeight()
	return option, true
}
