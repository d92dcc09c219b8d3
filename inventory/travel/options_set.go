package travel

import (
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// sets lists the ready sets that go into the holders of the pair, where these are
// sound or may be.
func (s *search) sets() []Option {
	if s.breakage.Holder != 0 && !s.breakage.HolderUnseen {
		return nil
	}
	other := s.breakage.Pair.HolderAt(s.breakage.Side.Other(), s.v.At)
	if !s.usable(s.breakage.Pair.Number, other) {
		return nil
	}
	var options []Option
	for _, set := range ReadySets(s.v, s.player) {
		if option, ok := s.set(set); ok {
			options = append(options, option)
		}
	}
	if steel, ok := s.newSteel(); ok {
		options = append(options, steel)
	}
	return options
}

// newSteel is a runner from stock for a holder that is sound.
func (s *search) newSteel() (Option, bool) {
	holder, err := inventory.FindHolder(s.v, s.breakage.Pair.HolderAt(s.breakage.Side, s.v.At))
	if err != nil || s.breakage.Holder != 0 {
		return Option{}, false
	}
	n := s.looseRunner(holder)
	if n == 0 {
		return Option{}, false
	}
	option := Option{
		Way: BySet, What: "a new runner", Place: standing.PlaceOf(s.v, n, s.v.At), Seconds: setSeconds + grindSeconds,
		Numbers: []inventory.Number{n}, Lacks: []string{"has to be profiled and ground"},
	}
	here, there := s.v.HeightOf(n).Now, s.v.HeightOf(s.breakage.Pair.SeatAt(s.breakage.Side, s.v.At).Runner).Now
	if here != nil && there != nil {
		difference := *here - *there
		option.Felt.Put(s.breakage.Side, &difference)
	}
	option.lackPlace()
	option.lackHeight()
	return option, true
}

// set is one set as a way back onto the ice.
func (s *search) set(ready Set) (Option, bool) {
	set, err := inventory.FindSet(s.v, ready.Number)
	if err != nil || !s.usable(set.Number, set.Left, set.Right) {
		return Option{}, false
	}
	option := Option{
		Way: BySet, What: "set " + set.Letter, Place: ready.Place, Seconds: setSeconds,
		Numbers: []inventory.Number{set.Number, set.Left, set.Right}, Felt: feltAgainst(s.v, set, s.breakage.Pair),
	}
	if s.breakage.HolderUnseen {
		option.Seconds = unseenSeconds
		option.Lacks = append(option.Lacks, "only if the holder is sound: look first")
	}
	for _, side := range inventory.Sides() {
		why, sure := s.misfit(set.Runner(side), s.breakage.Pair.HolderAt(side, s.v.At))
		if sure && why != "" {
			return Option{}, false
		}
		if why != "" {
			option.Lacks = append(option.Lacks, why)
			break
		}
	}
	s.lackOpen(&option, s.breakage.Pair.Number, s.breakage.Pair.HolderAt(s.breakage.Side.Other(), s.v.At), set.Left, set.Right)
	option.lackCauses(ready.Causes)
	option.lackPlace()
	option.lackHeight()
	return option, true
}

// lackCauses adds what is wrong and can be skated on for the moment; what is open is
// told for each piece.
func (o *Option) lackCauses(causes []Cause) {
	for _, cause := range causes {
		if cause.Fix == FixDamage || cause.Fix == FixSteel {
			continue
		}
		o.Lacks = append(o.Lacks, cause.What)
		if cause.Fix == FixGrind && cause.What == "never ground" {
			o.Seconds += grindSeconds
		}
	}
}

// misfit says why a runner does not go into a holder; unsure without a holder.
func (s *search) misfit(runner, holder inventory.Number) (why string, sure bool) {
	r, errRunner := inventory.FindRunner(s.v, runner)
	h, errHolder := inventory.FindHolder(s.v, holder)
	if errRunner != nil || errHolder != nil {
		return "no holder is recorded, so whether it fits can't be checked", false
	}
	return inventory.Fits(s.v, &r.Stock, &h.Stock)
}
