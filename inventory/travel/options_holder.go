package travel

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// holders lists loose holders like the one on the boot, each with steel for it: the
// runner that was in the old one where that is sound, else one that fits.
func (s *search) holders() []Option {
	if s.breakage.Holder == 0 {
		return nil
	}
	old, err := inventory.FindHolder(s.v, s.breakage.Pair.HolderAt(s.breakage.Side, s.v.At))
	if err != nil {
		return nil
	}
	var options []Option
	for _, n := range looseHolders(s.v, s.breakage.Side, s.v.At) {
		holder, err := inventory.FindHolder(s.v, n)
		if err != nil || !alike(s.v, holder, old) || !s.usable(n) {
			continue
		}
		options = append(options, s.holder(holder, old))
	}
	slices.SortStableFunc(options, func(a, b Option) int { return cmp.Compare(a.Seconds, b.Seconds) })
	return options[:min(len(options), mostHolders)]
}

// looseHolders lists the holders of a side that are on no boot.
func looseHolders(v inventory.View, side inventory.Side, at time.Time) []inventory.Number {
	var loose []inventory.Number
	for _, lot := range inventory.ShelfOf(v, inventory.KindHolder).Lots {
		if lot.Side != side {
			continue
		}
		for _, n := range lot.Loose {
			holder, err := inventory.FindHolder(v, n)
			if err == nil && holder.BootAt(at).Pair == 0 && !holder.Since.After(at) {
				loose = append(loose, n)
			}
		}
	}
	return loose
}

// alike tells whether a holder can take another one's place: of its family and length.
// Where nobody declared families, only the same model can.
func alike(v inventory.View, a, b *inventory.Holder) bool {
	family := inventory.FamilyOf(v, &a.Stock)
	return a.Size == b.Size && (a.Model == b.Model || family != "" && family == inventory.FamilyOf(v, &b.Stock))
}

// holder is one holder as a way back onto the ice.
func (s *search) holder(holder, old *inventory.Holder) Option {
	option := Option{
		Way: ByHolder, What: "holder " + holder.Model, Place: standing.PlaceOf(s.v, holder.Number, s.v.At), Seconds: holderSeconds,
		Numbers: []inventory.Number{holder.Number},
	}
	if was, ok := inventory.LastPair(holder, s.v.At); ok {
		option.Lacks = append(option.Lacks, "was on "+was.Short()+" before: look at it first")
	}
	s.lackOpen(&option, holder.Number)
	option.lackPlace()
	steel := s.breakage.Pair.SeatAt(s.breakage.Side, s.v.At).Runner
	switch {
	case steel != 0 && s.breakage.Runner == 0:
		s.lackOpen(&option, steel)
		option.Numbers = append(option.Numbers, steel)
		option.What += ", with the steel that was in the old one"
	case steel != 0 && s.breakage.RunnerUnseen:
		option.Numbers = append(option.Numbers, steel)
		option.What += ", with the steel that was in the old one"
		option.Lacks = append(option.Lacks, "only if the steel is sound: look first")
	default:
		s.steelFor(&option, holder)
	}
	return option
}

// steelFor adds steel that fits: a ready set of the player's, else a loose runner.
func (s *search) steelFor(option *Option, holder *inventory.Holder) {
	option.Seconds += setSeconds
	for _, ready := range ReadySets(s.v, s.player) {
		set, err := inventory.FindSet(s.v, ready.Number)
		if err != nil || !s.usable(set.Number, set.Left, set.Right) {
			continue
		}
		why, sure := s.misfit(set.Runner(s.breakage.Side), holder.Number)
		if why != "" && sure {
			continue
		}
		if why != "" {
			option.Lacks = append(option.Lacks, why)
		}
		option.Numbers = append(option.Numbers, set.Number)
		option.What += ", with set " + set.Letter
		option.Felt = feltAgainst(s.v, set, s.breakage.Pair)
		s.lackOpen(option, set.Left, set.Right)
		option.lackCauses(ready.Causes)
		option.lackHeight()
		return
	}
	if runner := s.looseRunner(holder); runner != 0 {
		option.Numbers = append(option.Numbers, runner)
		option.What += ", with a new runner"
		option.Lacks = append(option.Lacks, "the new runner has to be profiled and ground")
		option.Seconds += grindSeconds
		return
	}
	option.Lacks = append(option.Lacks, "no steel that fits")
}

// looseRunner is a runner in stock that goes into a holder; zero is none. Where nobody
// declared what fits, only one of the model that was in it does.
func (s *search) looseRunner(holder *inventory.Holder) inventory.Number {
	for _, lot := range inventory.ShelfOf(s.v, inventory.KindRunner).Lots {
		for _, n := range lot.Loose {
			runner, err := inventory.FindRunner(s.v, n)
			if err != nil || standing.StateOf(s.v, n, s.v.At) != inventory.InStock || runner.Since.After(s.v.At) {
				continue
			}
			side := runner.SideAt(s.v.At)
			why, sure := inventory.Fits(s.v, &runner.Stock, &holder.Stock)
			if why != "" && (sure || !s.asBefore(runner)) {
				break // all of a lot are alike
			}
			if (side == "" || side == s.breakage.Side) && s.usable(n) {
				return n
			}
		}
	}
	return 0
}

// asBefore tells whether a runner is of the model and size that is in the old holder.
func (s *search) asBefore(runner *inventory.Runner) bool {
	old, err := inventory.FindRunner(s.v, s.breakage.Pair.SeatAt(s.breakage.Side, s.v.At).Runner)
	return err == nil && old.Model == runner.Model && old.Size == runner.Size
}
