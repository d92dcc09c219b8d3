package inventory

import (
	"fmt"
	"slices"
)

// Reserved keeps running numbers for blank tags, which are stuck on first and scanned
// later. No piece has such a number until it is entered.
type Reserved struct {
	Piece   string `json:"piece"` // runner or holder
	Station int    `json:"station"`
	First   int    `json:"first"`
	Count   int    `json:"count"`
}

// Kind is the word in the record.
func (*Reserved) Kind() string { return "reserved" }

// Touches names the counter that the numbers come from, and nothing else.
func (b *Reserved) Touches() []Ref { return []Ref{GivenRef(KindNamed(b.Piece), b.Station)} }

// Numbers are the reserved numbers.
func (b *Reserved) Numbers() []Number {
	var numbers []Number
	for running := b.First; running < b.First+b.Count; running++ {
		if n, err := NewNumber(KindNamed(b.Piece), b.Station, running); err == nil {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

func (b *Reserved) line(Teller, *Event) string {
	return fmt.Sprintf("%d numbers kept for blank %s tags", b.Count, b.Piece)
}

// Given counts the numbers that one kind has got at one station.
type Given struct {
	Ref     Ref    `json:"ref"`
	Highest int    `json:"highest"`
	Blank   []Span `json:"blank,omitempty"` // given to blank tags, whether entered since or not
}

// Span is a run of running numbers.
type Span struct {
	First int `json:"first"`
	Count int `json:"count"`
}

// Apply folds one event: whatever number it names was given some time.
func (g *Given) Apply(e *Event) {
	if b, ok := e.Body.(*Reserved); ok {
		g.Blank = append(g.Blank, Span{b.First, b.Count})
		g.Highest = max(g.Highest, b.First+b.Count-1)
		return
	}
	for _, ref := range e.Body.Touches() {
		if n := ref.Number(); n != 0 && CounterOf(n) == g.Ref {
			g.Highest = max(g.Highest, n.Running())
		}
	}
}

// IsBlank tells whether a running number was given to a blank tag.
func (g *Given) IsBlank(running int) bool {
	for _, span := range g.Blank {
		if running >= span.First && running < span.First+span.Count {
			return true
		}
	}
	return false
}

// IsBlank tells whether a number was kept for a blank tag and no piece has it yet.
func IsBlank(v View, n Number) bool {
	if n == 0 || IsEntered(v.Entity(RefOf(n))) {
		return false
	}
	given, ok := v.Entity(CounterOf(n)).(*Given)
	return ok && given.IsBlank(n.Running())
}

// Counters names the counters of all kinds at all stations.
func Counters() []Ref {
	var refs []Ref
	for kind := range kindNames {
		for station := 0; station <= MaxStation && Kind(kind).known(); station++ {
			refs = append(refs, GivenRef(Kind(kind), station))
		}
	}
	return refs
}

// CounterNamed is the kind and the station that a counter is of.
func CounterNamed(ref Ref) (kind Kind, station int, ok bool) {
	counters := Counters()
	at := slices.Index(counters, ref)
	if at < 0 {
		return 0, 0, false
	}
	n, err := fmt.Sscanf(string(ref), givenPrefix+"%d/%d", &kind, &station)
	return kind, station, n == 2 && err == nil
}

// Gives lists the numbers that a body brings into the record.
func Gives(body Body) []Number {
	switch b := body.(type) {
	case *StockedIn:
		return b.Pieces
	case *FoundOld:
		return []Number{b.Piece}
	case *PlayerNoted:
		return []Number{b.Player}
	case *PairNoted:
		return []Number{b.Pair}
	case *SetMade:
		return []Number{b.Set}
	case *ContainerNoted:
		return []Number{b.Container}
	}
	return nil
}

// CounterOf names the counter that a newly given number advances.
func CounterOf(n Number) Ref { return GivenRef(n.Kind(), n.Station()) }
