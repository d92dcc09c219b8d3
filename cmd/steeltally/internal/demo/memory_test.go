package demo

import (
	"cmp"
	"maps"
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// memory is a plain record in memory: every state by name, and what is needed to fold
// one anew when a correction voids something.
type memory struct {
	events []*inventory.Event
	states map[inventory.Ref]inventory.Entity
	trails map[inventory.Ref][]*inventory.Event
	byKey  map[inventory.Key]*inventory.Event
	voided map[inventory.Key]bool
}

func newMemory() *memory {
	return &memory{
		states: map[inventory.Ref]inventory.Entity{}, trails: map[inventory.Ref][]*inventory.Event{},
		byKey: map[inventory.Key]*inventory.Event{}, voided: map[inventory.Key]bool{},
	}
}

func (m *memory) record(stamp book.Stamp, decide book.Decide) ([]inventory.Event, error) {
	drafts, err := decide(m)
	if err != nil {
		return nil, err
	}
	var events []inventory.Event
	for i, draft := range drafts {
		n := uint64(len(m.events)) + 1
		e := &inventory.Event{
			Key: inventory.Key{Writer: "00000000000000ff", Sequence: n}, Logical: n, Happened: draft.Happened,
			Noted: stamp.Noted, Who: stamp.Who, More: len(drafts) - 1 - i, Body: draft.Body,
		}
		m.add(e)
		events = append(events, *e)
	}
	return events, nil
}

func (m *memory) add(e *inventory.Event) {
	m.events = append(m.events, e)
	m.byKey[e.Key] = e
	for _, ref := range inventory.TouchedOnce(e) {
		m.trails[ref] = append(m.trails[ref], e)
		if m.states[ref] == nil {
			m.states[ref] = inventory.NewEntity(ref)
		}
		m.states[ref].Apply(e)
	}
	for _, key := range inventory.Voids(e) {
		m.voided[key] = true
		for _, ref := range inventory.TouchedOnce(m.byKey[key]) {
			m.refold(ref)
		}
	}
}

func (m *memory) refold(ref inventory.Ref) {
	delete(m.states, ref)
	for _, e := range m.trails[ref] {
		if m.voided[e.Key] {
			continue
		}
		if m.states[ref] == nil {
			m.states[ref] = inventory.NewEntity(ref)
		}
		m.states[ref].Apply(e)
	}
}

func (m *memory) Entity(ref inventory.Ref) inventory.Entity {
	if state, ok := m.states[ref]; ok {
		return state
	}
	return nil
}

func (m *memory) Writer() inventory.Writer { return "" }

func (m *memory) Each(kind inventory.Kind, yield func(inventory.Number, inventory.Entity) bool) {
	refs := slices.SortedFunc(maps.Keys(m.states), cmp.Compare[inventory.Ref])
	for _, ref := range refs {
		if n := ref.Number(); n != 0 && n.Kind() == kind && !yield(n, m.states[ref]) {
			return
		}
	}
}

// endDay is the day on which the books of the tests end.
func endDay() time.Time { return time.Date(2026, time.November, 25, 12, 0, 0, 0, time.UTC) }

// played is a club that played its seasons into memory.
func played(t testing.TB, o Options) (*club, *memory) {
	t.Helper()
	c, err := newClub(o)
	if err != nil {
		t.Fatal(err)
	}
	m := newMemory()
	c.record = m.record
	c.enter(deeds.FoundClub{Name: clubName, Zone: zoneName, Station: station})
	if err := c.playAll(); err != nil {
		t.Fatal(err)
	}
	return c, m
}
