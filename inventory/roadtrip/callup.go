package roadtrip

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
)

// Need is one sort of thing that a player who was called up should have, and where it
// can come from.
type Need struct {
	What      string // "left holder", "runners"
	Side      inventory.Side
	Size      int // 0: not known
	Want      int
	Stock     []inventory.Number // loose and fit
	Others    []Loan             // of other players: ask first
	Buy       int
	Uncertain string // why it can't be told for sure
}

// Loan is a piece that another player could spare.
type Loan struct {
	Number inventory.Number
	What   string
	Owner  string
}

// The spares that every player should have on the road; common practice, no source.
const (
	setsForCallUp    = 2
	holdersForCallUp = 1
)

// Needs tells what a called-up player's skates need and where it can come from. Without
// the holder family or size nothing can be matched, and that is said.
func Needs(v *standing.Now, player *inventory.Player) []Need {
	call, ok := player.CalledUpAt(v.At)
	if !ok {
		return nil
	}
	var needs []Need
	for _, side := range inventory.Sides() {
		size := 0
		if known := call.Value.Sizes.Of(side); known != nil {
			size = *known
		}
		m := matcher{v: v, call: call.Value, goalkeeper: player.Goalkeeper(), side: side, size: size}
		needs = append(needs, m.need(inventory.KindRunner, setsForCallUp), m.need(inventory.KindHolder, holdersForCallUp))
	}
	for i := range needs {
		needs[i].Others = othersFor(v, player, &needs[i], call.Value)
		needs[i].Buy = max(0, needs[i].Want-len(needs[i].Stock))
	}
	return needs
}

// matcher looks for pieces of a family and a size.
type matcher struct {
	v          *standing.Now
	call       inventory.CalledUp
	goalkeeper bool
	side       inventory.Side
	size       int
}

func (m matcher) need(kind inventory.Kind, want int) Need {
	need := Need{What: fmt.Sprintf("%s %s", m.side, kind), Side: m.side, Size: m.size, Want: want}
	switch {
	case m.call.Family == "":
		need.Uncertain = "the holder family is not known: ask"
	case m.size == 0:
		need.Uncertain = "the size is not known: ask"
	default:
		need.Stock = m.loose(kind)
	}
	return need
}

// loose lists pieces on the shelf that are of the family and size, and sound. A runner
// without a side counts for either; it is the left ones that are listed first.
func (m matcher) loose(kind inventory.Kind) []inventory.Number {
	var loose []inventory.Number
	for _, lot := range inventory.ShelfOf(m.v, kind).Lots {
		if lot.Size != m.size || lot.Side != "" && lot.Side != m.side {
			continue
		}
		for i, n := range lot.Loose {
			if lot.Side == "" && (i%2 == 0) != (m.side == inventory.Left) {
				continue // every other one, so that none is promised twice
			}
			if m.fits(n) {
				loose = append(loose, n)
			}
		}
	}
	return loose
}

// fits tells whether a loose piece is of the family, and can be used.
func (m matcher) fits(n inventory.Number) bool {
	marks := inventory.MarksOf(m.v, n)
	if len(marks.OpenDamages(m.v.At)) > 0 || marks.ScrappedAt(m.v.At) || !marks.CustodyAt(m.v.At).Ours() {
		return false
	}
	switch piece := m.v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		return standing.StateOf(m.v, n, m.v.At) == inventory.InStock && m.ofFamily(&piece.Stock)
	case *inventory.Holder:
		return piece.BootAt(m.v.At).Pair == 0 && m.ofFamily(&piece.Stock)
	}
	return false
}

func (m matcher) ofFamily(s *inventory.Stock) bool {
	model, ok := m.v.Entity(inventory.ModelRef(s.Model)).(*inventory.Model)
	return ok && model.Goalkeeper == m.goalkeeper && sparepair.SameWord(model.Family, m.call.Family)
}

// othersFor lists sets of other players whose runners would fit, which have to be asked
// for. A holder is not taken off another player's boots.
func othersFor(v *standing.Now, player *inventory.Player, need *Need, call inventory.CalledUp) []Loan {
	if need.Uncertain != "" || need.Want <= len(need.Stock) || need.What != string(need.Side)+" runner" {
		return nil
	}
	m := matcher{v: v, call: call, goalkeeper: player.Goalkeeper(), side: need.Side, size: need.Size}
	var loans []Loan
	for _, member := range inventory.RosterOf(v).Members {
		other, err := inventory.PlayerOf(v, member.Player)
		if err != nil || other.Number == player.Number {
			continue
		}
		for _, ready := range sparepair.ReadySets(v, other) {
			set, errSet := inventory.FindSet(v, ready.Number)
			if errSet != nil || ready.State == sparepair.Missing {
				continue
			}
			runner, err := inventory.FindRunner(v, set.Runner(need.Side))
			if err == nil && runner.Size == need.Size && standing.Skateable(v, v.At, runner.Number) && m.ofFamily(&runner.Stock) {
				loans = append(loans, Loan{runner.Number, "set " + set.Letter, ownerOf(other)})
			}
		}
	}
	return loans
}

// ownerOf says whom to ask; what a player who left had is the club's.
func ownerOf(player *inventory.Player) string {
	if player.Gone {
		return "the club's, " + player.Name + " has left"
	}
	return player.Name
}
