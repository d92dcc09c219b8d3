package inventory

import (
	"fmt"
	"slices"
)

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
