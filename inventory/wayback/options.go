// Package wayback tells what gets a player back on the ice, the fastest first; pure.
package wayback

import (
	"cmp"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
)

// Way is a way back onto the ice.
type Way string

// The ways, from what is quickest where it can be done at all.
const (
	BySet    Way = "set"    // a ready set into sound holders
	ByPair   Way = "pair"   // another pair of his
	ByHolder Way = "holder" // another holder, with matched steel
)

// How long the ways take, in seconds. Common practice, no source: steel alone 15 s to
// 3 min, another pair 1 to 2 min, a holder 5 to 10 min.
const (
	setSeconds     = 60
	unseenSeconds  = 150 // where somebody has to look at the holder first
	pairSeconds    = 90
	holderSeconds  = 450
	grindSeconds   = 240 // more, where the steel was never ground
	elseSeconds    = 60  // more, where nobody knows where it lies
	mostHolders    = 6
	differenceFelt = 0.5 // mm that a player feels, common practice, no source
)

// Option is one way back onto the ice with what it takes.
type Option struct {
	Way     Way
	What    string // in a person's words
	Place   inventory.Place
	Seconds int
	Numbers []inventory.Number // what to fetch, the main thing first
	Felt    inventory.Both[geometry.Millimetre]
	Lacks   []string
}

// Breakage is what is broken on a side of a pair, or may be.
type Breakage struct {
	Pair         *inventory.Pair
	Side         inventory.Side
	Holder       inventory.Number // zero: sound, or none
	Runner       inventory.Number // zero: sound, or none
	HolderUnseen bool             // nobody looked yet whether it is the holder
	RunnerUnseen bool
}

// BreakageOn tells what the record says is broken on a side of a pair.
func BreakageOn(v inventory.View, pair *inventory.Pair, side inventory.Side, at time.Time) Breakage {
	b := Breakage{Pair: pair, Side: side}
	b.Holder, b.HolderUnseen = brokenOrUnseen(v, pair.HolderAt(side, at), at)
	b.Runner, b.RunnerUnseen = brokenOrUnseen(v, pair.SeatAt(side, at).Runner, at)
	if !b.HolderUnseen || !b.RunnerUnseen {
		b.HolderUnseen, b.RunnerUnseen = false, false // it was said which of them broke
	}
	return b
}

// brokenOrUnseen is the piece itself where nobody may skate on it, and whether that is
// only until somebody looked.
func brokenOrUnseen(v inventory.View, n inventory.Number, at time.Time) (inventory.Number, bool) {
	safety := standing.SafetyOf(v, n, at)
	if n == 0 || safety == standing.Sound {
		return 0, false
	}
	return n, safety == standing.Suspect
}

// Options lists the ways back onto the ice for a player, the fastest first. Nothing
// that is broken, or may be, is among them.
func Options(v *standing.Now, player *inventory.Player, b Breakage) []Option {
	s := &search{v: v, player: player, breakage: b}
	options := append(s.sets(), s.pairs()...)
	options = append(options, s.holders()...)
	slices.SortStableFunc(options, func(a, b Option) int {
		return cmp.Or(cmp.Compare(a.Seconds, b.Seconds), cmp.Compare(len(a.Lacks), len(b.Lacks)))
	})
	return options
}

// search looks for ways back onto the ice.
type search struct {
	v        *standing.Now
	player   *inventory.Player
	breakage Breakage
}

// usable tells whether pieces may be skated on, are here and not thrown away.
func (s *search) usable(pieces ...inventory.Number) bool {
	return !slices.ContainsFunc(pieces, func(n inventory.Number) bool {
		return standing.OwnSafety(s.v, n, s.v.At) != standing.Sound || !inventory.MarksOf(s.v, n).CustodyAt(s.v.At).Ours()
	})
}

// lackOpen adds what is open on pieces and can be mended in a hurry: a bolt, a nick.
func (s *search) lackOpen(o *Option, pieces ...inventory.Number) {
	rules := sparepair.RulesOf(s.v, s.player.Number, s.v.At)
	for _, n := range pieces {
		for _, damage := range inventory.MarksOf(s.v, n).OpenDamages(s.v.At) {
			if !damage.Unsafe {
				o.Lacks = append(o.Lacks, "open: "+n.Short()+", "+damage.Where())
				o.Seconds += 60 * rules.Minutes(sparepair.FixDamage)
			}
		}
	}
}

// lackPlace adds that nobody knows where a thing lies.
func (o *Option) lackPlace() {
	if o.Place == (inventory.Place{}) {
		o.Lacks = append(o.Lacks, "nobody noted where it is")
		o.Seconds += elseSeconds
	}
}

// lackHeight adds what a player would feel.
func (o *Option) lackHeight() {
	for side, difference := range o.Felt.Each {
		if *difference > differenceFelt {
			o.Lacks = append(o.Lacks, string(side)+" "+difference.String()+" higher")
		}
		if *difference < -differenceFelt {
			o.Lacks = append(o.Lacks, string(side)+" "+(-*difference).String()+" lower")
		}
	}
}

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
	parts := standing.Parts(s.v, pair.Number, s.v.At)
	left, right := pair.SeatAt(inventory.Left, s.v.At).Runner, pair.SeatAt(inventory.Right, s.v.At).Runner
	if left == 0 || right == 0 || !s.usable(parts...) {
		return Option{}, false
	}
	option := Option{Way: ByPair, What: role.Pair(), Place: standing.PlaceOf(s.v, pair.Number, s.v.At), Seconds: pairSeconds, Numbers: []inventory.Number{pair.Number}}
	s.lackOpen(&option, parts...)
	if role == inventory.RoleSpare {
		report := sparepair.SparePair(s.v, s.player)
		option.lackCauses(slices.DeleteFunc(report.Causes, func(c sparepair.Cause) bool { return c.Fix == sparepair.FixPlace || c.Fix == sparepair.FixHeight }))
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
	for _, set := range sparepair.ReadySets(s.v, s.player) {
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
func (s *search) set(ready sparepair.Set) (Option, bool) {
	set, err := inventory.FindSet(s.v, ready.Number)
	if err != nil || !s.usable(set.Number, set.Left, set.Right) {
		return Option{}, false
	}
	option := Option{
		Way: BySet, What: "set " + set.Letter, Place: ready.Place, Seconds: setSeconds,
		Numbers: []inventory.Number{set.Number, set.Left, set.Right}, Felt: sparepair.FeltAgainst(s.v, set, s.breakage.Pair),
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
func (o *Option) lackCauses(causes []sparepair.Cause) {
	for _, cause := range causes {
		if cause.Fix == sparepair.FixDamage || cause.Fix == sparepair.FixSteel {
			continue
		}
		o.Lacks = append(o.Lacks, cause.What)
		if cause.Fix == sparepair.FixGrind && cause.What == "never ground" {
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
	for _, ready := range sparepair.ReadySets(s.v, s.player) {
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
		option.Felt = sparepair.FeltAgainst(s.v, set, s.breakage.Pair)
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
