package openwork_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
	"steeltally/inventory/wayback"
)

// plain is what a person with a sheet of paper would know: which pieces have something
// open, and what hangs on a pair. It reads nothing but the events that stand.
type plain struct {
	open map[inventory.Number]bool // by piece: something is or may be broken
	good map[inventory.Number]bool // by piece: broken for good
	on   map[inventory.Number]map[inventory.Side][2]inventory.Number
}

func readPlain(events []*inventory.Event) plain {
	p := plain{map[inventory.Number]bool{}, map[inventory.Number]bool{}, map[inventory.Number]map[inventory.Side][2]inventory.Number{}}
	voided := inventory.Voided(events)
	for _, e := range events {
		if _, void := voided[e.Key]; !void {
			p.read(e.Body)
		}
	}
	return p
}

func (p plain) read(body inventory.Body) {
	switch b := body.(type) {
	case *inventory.Damaged:
		p.open[b.Piece] = true
		p.good[b.Piece] = p.good[b.Piece] || b.Mode == "crack" || b.Mode == "break" || b.Mode == "bend"
	case *inventory.Emergency:
		for _, n := range b.Suspects {
			p.open[n] = true
		}
	case *inventory.Inspected:
		for _, n := range b.Pieces {
			p.open[n] = p.good[n] || p.open[n] && !b.Sound
		}
	case *inventory.Riveted:
		on := [2]inventory.Number{b.Holder, b.Runner}
		if b.Off {
			on = [2]inventory.Number{}
		}
		p.pair(b.Pair)[b.Side] = on
	case *inventory.PutIn:
		for side, fit := range b.Each {
			p.pair(b.Pair)[side] = [2]inventory.Number{p.pair(b.Pair)[side][0], fit.Runner}
		}
	case *inventory.TakenOut:
		for side := range b.Each {
			p.pair(b.Pair)[side] = [2]inventory.Number{p.pair(b.Pair)[side][0], 0}
		}
	}
}

func (p plain) pair(n inventory.Number) map[inventory.Side][2]inventory.Number {
	if p.on[n] == nil {
		p.on[n] = map[inventory.Side][2]inventory.Number{}
	}
	return p.on[n]
}

// broken is a piece of a pair that has something open, or zero.
func (p plain) broken(pair inventory.Number) inventory.Number {
	pieces := []inventory.Number{pair}
	for _, on := range p.pair(pair) {
		pieces = append(pieces, on[0], on[1])
	}
	for _, n := range pieces {
		if n != 0 && p.open[n] {
			return n
		}
	}
	return 0
}

// season is a random stream of deeds in one small club.
type season struct {
	*club
	*rand.Rand
	skaters []*skater
	pieces  []inventory.Number
	sets    []inventory.Number
	at      time.Time
}

func newSeason(t *testing.T, seed uint64) *season {
	c := openClub(t)
	s := &season{club: c, Rand: rand.New(rand.NewPCG(seed, 5)), at: days(3)}
	for sweater := 2; sweater < 4; sweater++ {
		s.skaters = append(s.skaters, c.add(sweater))
	}
	for _, skater := range s.skaters {
		s.pieces = append(s.pieces, skater.first, skater.spare)
		for _, side := range inventory.Sides() {
			s.pieces = append(s.pieces, skater.holders["first "+string(side)], skater.holders["spare "+string(side)])
			s.pieces = append(s.pieces, c.stock(inventory.KindHolder, "Skua H", 280, side, 1)...)
		}
		for _, n := range skater.sets {
			set, err := inventory.FindSet(&c.Ledger, n)
			if err != nil {
				t.Fatal(err)
			}
			s.pieces, s.sets = append(s.pieces, set.Left, set.Right), append(s.sets, n)
		}
	}
	return s
}

func pick[T any](s *season, from []T) T { return from[s.IntN(len(from))] }

// deed is something that somebody does next; often the record does not allow it.
func (s *season) deed() deeds.Deed {
	who, piece, side := pick(s, s.skaters), pick(s, s.pieces), pick(s, inventory.Sides())
	pair := pick(s, []inventory.Number{who.first, who.spare})
	switch s.IntN(15) {
	case 0, 1:
		return deeds.ReportDamage{Piece: piece, Mode: pick(s, []inventory.Mode{"crack", "loose-bolt", "loose-rivet", "chip", "bend"})}
	case 2, 3, 4:
		return deeds.Inspect{Piece: piece, Sound: s.IntN(4) > 0}
	case 5:
		return deeds.RivetOff{Holder: piece}
	case 6:
		return deeds.RivetOn{Holder: piece, Pair: pair}
	case 7:
		return deeds.PutSetIn{Player: who.number, Set: pick(s, s.sets), Pair: pair}
	case 8:
		return deeds.TakeOut{Player: who.number, Pair: pair, Reason: pick(s, []inventory.Reason{"rotate", "broken"})}
	case 9:
		return deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: who.number, Pair: pair, Reason: "rotate"}, Set: pick(s, s.sets)}
	case 10:
		return deeds.CallEmergency{Player: who.number, Pair: pair, Side: side, Broke: pick(s, []string{"", "holder", "runner"})}
	case 11:
		return deeds.EndEmergency{Player: who.number, Did: "steel", Broke: pick(s, []string{"", "nothing", "holder", "runner"}), Mode: ""}
	case 12:
		return deeds.EndEmergency{Player: who.number, Did: "steel", Broke: pick(s, []string{"holder", "runner"}), Mode: "break"}
	case 13:
		last := s.Events()[len(s.Events())-1]
		return deeds.Undo{Events: []inventory.Event{*last}}
	}
	return deeds.Grind{Player: who.number, Pair: pair}
}

// No pair is ever ready, and nothing is ever offered, with something open anywhere in
// its pieces, whatever happens.
func TestNothingOpenIsEverReady(t *testing.T) {
	ready, unready, offered := 0, 0, 0
	for seed := range uint64(40) {
		s := newSeason(t, seed)
		for range 60 {
			s.at = s.at.Add(time.Minute)
			if _, err := s.try(s.at, s.deed()); err != nil {
				continue
			}
			known := readPlain(s.Events())
			for _, skater := range s.skaters {
				r, u := s.checkSpare(skater, known)
				ready, unready = ready+r, unready+u
				offered += s.checkOffers(skater, known)
			}
		}
	}
	if ready < 300 || unready < 300 || offered < 300 {
		t.Errorf("only %d pairs were ready, %d broken, %d ways offered: the check is empty", ready, unready, offered)
	}
}

// checkSpare holds what is told of a spare pair to what is plainly known.
func (s *season) checkSpare(skater *skater, known plain) (ready, broken int) {
	s.t.Helper()
	pair := sparepair.SparePair(standingtest.Look(&s.Ledger, s.at), s.player(skater))
	n := known.broken(skater.spare)
	if n != 0 {
		broken = 1
	}
	if pair.State == sparepair.Ready || pair.State == sparepair.Declined {
		ready = 1
		if n != 0 {
			s.t.Fatalf("the spare pair of %d is %s, although %s is open", skater.sweater, pair.State, n.Short())
		}
	}
	return ready, broken
}

// checkOffers holds the ways back to what is plainly known.
func (s *season) checkOffers(skater *skater, known plain) int {
	s.t.Helper()
	first := s.pairOf(skater.first)
	offered := 0
	for _, side := range inventory.Sides() {
		breakage := wayback.BreakageOn(&s.Ledger, first, side, s.at)
		for _, option := range wayback.Options(standingtest.Look(&s.Ledger, s.at), s.player(skater), breakage) {
			offered++
			for _, n := range s.piecesOf(option, known) {
				if known.open[n] && !saidOpen(option, n, known.good[n]) {
					s.t.Fatalf("%d, %s side: offered %+v, although %s is open", skater.sweater, side, option, n.Short())
				}
			}
		}
	}
	return offered
}

// piecesOf lists what a way back is skated on, as far as it is plainly known.
func (s *season) piecesOf(option wayback.Option, known plain) []inventory.Number {
	pieces := slices.Clone(option.Numbers)
	for _, n := range option.Numbers {
		for _, on := range known.pair(n) {
			pieces = append(pieces, on[0], on[1])
		}
	}
	return pieces
}

// saidOpen tells whether a way back says that a piece has to be looked at or mended
// first; what is broken for good is never to be mended.
func saidOpen(option wayback.Option, n inventory.Number, good bool) bool {
	return !good && slices.ContainsFunc(option.Lacks, func(lack string) bool {
		return lack == "only if the steel is sound: look first" && n.Kind() == inventory.KindRunner || strings.HasPrefix(lack, "open: "+n.Short()+",")
	})
}
