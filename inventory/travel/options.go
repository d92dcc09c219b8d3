package travel

import (
	"cmp"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
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
	rules := RulesOf(s.v, s.player.Number, s.v.At)
	for _, n := range pieces {
		for _, damage := range inventory.MarksOf(s.v, n).OpenDamages(s.v.At) {
			if !damage.Unsafe {
				o.Lacks = append(o.Lacks, "open: "+n.Short()+", "+damage.Where())
				o.Seconds += 60 * rules.Minutes(FixDamage)
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
