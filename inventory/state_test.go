package inventory

import (
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"testing"
	"time"
)

// throughJSON is a state as a book would keep and read it.
func throughJSON(t *testing.T, ref Ref, state Entity) Entity {
	t.Helper()
	text := asJSON(t, state)
	again := NewEntity(ref)
	if err := json.Unmarshal([]byte(text), again); err != nil {
		t.Fatalf("%s: %s can't be read again: %v", ref, text, err)
	}
	if back := asJSON(t, again); back != text {
		t.Fatalf("%s: %s came back as %s", ref, text, back)
	}
	return again
}

// apply folds an event into states that are made as they are needed.
func apply(states map[Ref]Entity, e *Event) {
	for _, ref := range TouchedOnce(e) {
		if states[ref] == nil {
			if states[ref] = NewEntity(ref); states[ref] == nil {
				delete(states, ref)
				continue
			}
		}
		states[ref].Apply(e)
	}
}

// A state that is written and read again between any two events comes to the same as
// one that stays in memory, whatever the events say.
func TestStatesGoThroughJSONWithoutLoss(t *testing.T) {
	checked := map[string]bool{}
	for seed := range uint64(20) {
		c := newChance(t, 300+seed)
		kept, read := map[Ref]Entity{}, map[Ref]Entity{}
		for i := range 150 {
			e := c.event()
			e.Key, e.Logical = Key{firstWriter, uint64(i + 1)}, uint64(i+1)
			if c.IntN(6) == 0 {
				c.spoil(t, &e)
			}
			apply(kept, &e)
			apply(read, &e)
			for ref, state := range read {
				if c.IntN(4) == 0 {
					read[ref] = throughJSON(t, ref, state)
				}
			}
		}
		for _, ref := range slices.Sorted(maps.Keys(kept)) {
			checked[reflect.TypeOf(kept[ref]).Elem().Name()] = true
			if want, got := asJSON(t, kept[ref]), asJSON(t, read[ref]); got != want {
				t.Fatalf("seed %d, %s: read and written between events it is\n%s\nwant\n%s", seed, ref, got, want)
			}
			answerAll(throughJSON(t, ref, kept[ref]))
		}
	}
	if len(checked) < 9 {
		t.Errorf("only these states were tried: %v", checked)
	}
}

// spoil makes of an event what a broken or newer program might have written: parts of
// its body are missing or something else.
func (c chance) spoil(t *testing.T, e *Event) {
	t.Helper()
	var body map[string]any
	if err := json.Unmarshal([]byte(asJSON(t, e.Body)), &body); err != nil {
		return
	}
	values := []any{nil, "", 7, -3.5, 1e300, true, []any{}, []any{nil, "x"}, map[string]any{}, "1000042744", "9999999999", "unknown", map[string]any{"runner": "7100000134"}}
	for _, name := range slices.Sorted(maps.Keys(body)) {
		if c.IntN(3) == 0 {
			body[name] = values[c.IntN(len(values))]
		}
	}
	if c.IntN(3) == 0 {
		body["zeal"] = values[c.IntN(len(values))]
	}
	var more json.RawMessage
	if e.Body, more = decodeBody(e.Body.Kind(), json.RawMessage(asJSON(t, body))); more != nil {
		e.newer = &newer{body: more}
	}
}

// answerAll asks a state everything that it can be asked; nothing may fail.
func answerAll(state Entity) {
	if flagged, ok := state.(interface{ Flags() []Flag }); ok {
		flagged.Flags()
	}
	for _, at := range []time.Time{{}, theNow, theNow.AddDate(0, -1, -10)} {
		switch s := state.(type) {
		case *Runner:
			s.StateAt(at)
			s.WearAt(at)
			s.Stints(at)
			s.Generation(at)
			s.SideAt(at)
			s.SetAt(at)
			s.OpenDamages(at)
		case *Holder:
			s.BootAt(at)
			s.RunnerAt(at)
			s.OpenDamages(at)
		case *Pair:
			s.Role(at)
			s.SetAt(at)
			s.HolderAt(Left, at)
		case *Set:
			s.StateAt(at)
			s.Order(at)
			s.GroundSince(at, at)
		case *Player:
			specs := s.SpecsAt(at)
			_ = specs.String()
			s.Sweater(at)
			s.GroundSince(at, at)
			s.SetLettered("A")
		case *Club:
			s.Location()
		case *Roster:
			s.Wearing(17, at)
		}
	}
}

// What was said with an empty profile must not mean another thing once it was written.
func TestAnEmptyProfileIsNone(t *testing.T) {
	c := openClubhouse(t)
	eleven := Profile{3352.8}
	c.do("2 09:00", NoteSpecs{c.bo, Specs{Profile: eleven}})
	e := read(t, line("specs", `{"player":"`+c.bo.String()+`","profile_mm":[]}`))
	c.Add(e)
	if got := c.player(c.bo).SpecsAt(theNow).Profile; !got.Equal(eleven) {
		t.Errorf("the profile is %v", got)
	}
}

// A runner of which nothing but a newer program's entry is known is kept and read.
func TestStatesWithNoStockIn(t *testing.T) {
	var l Ledger
	high, _ := NewNumber(KindRunner, 1, 500)
	l.Add(read(t, line("loan", `{"piece":"`+high.String()+`"}`)))
	state := throughJSON(t, RefOf(high), l.Entity(RefOf(high)))
	if entered(state) || len(state.(*Runner).Flags()) != 1 {
		t.Errorf("read again it is %+v", state)
	}
}

func FuzzEvent(f *testing.F) {
	for _, body := range []string{`{}`, `{"runner":"1100000171"}`, `{"pieces":["1100000171"],"side":"left"}`} {
		for _, kind := range []string{"grind", "in", "out", "rivet", "set", "stockin", "correction", "loan"} {
			f.Add(line(kind, body))
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		var e Event
		if json.Unmarshal([]byte(text), &e) != nil {
			return
		}
		var again Event
		written := asJSON(t, &e)
		if err := json.Unmarshal([]byte(written), &again); err != nil || asJSON(t, &again) != written {
			t.Fatalf("%s was written as %s, and that as %s, %v", text, written, asJSON(t, &again), err)
		}
		states := map[Ref]Entity{}
		for range 2 {
			apply(states, &e)
		}
		for ref, state := range states {
			answerAll(throughJSON(t, ref, state))
		}
		_ = Teller{&Ledger{}}.Line(&e)
	})
}
