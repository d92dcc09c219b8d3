package inventory_test

import (
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// throughJSON is a state as a book would keep and read it.
func throughJSON(t *testing.T, ref inventory.Ref, state inventory.Entity) inventory.Entity {
	t.Helper()
	text := inventorytest.AsJSON(t, state)
	again := inventory.NewEntity(ref)
	if err := json.Unmarshal([]byte(text), again); err != nil {
		t.Fatalf("%s: %s can't be read again: %v", ref, text, err)
	}
	if back := inventorytest.AsJSON(t, again); back != text {
		t.Fatalf("%s: %s came back as %s", ref, text, back)
	}
	return again
}

// apply folds an event into states that are made as they are needed.
func apply(states map[inventory.Ref]inventory.Entity, e *inventory.Event) {
	for _, ref := range inventory.TouchedOnce(e) {
		if states[ref] == nil {
			if states[ref] = inventory.NewEntity(ref); states[ref] == nil {
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
		c := inventorytest.NewChance(t, ".", 300+seed)
		kept, read := map[inventory.Ref]inventory.Entity{}, map[inventory.Ref]inventory.Entity{}
		for i := range 150 {
			e := c.Event()
			e.Key, e.Logical = inventory.Key{Writer: inventorytest.FirstWriter, Sequence: uint64(i + 1)}, uint64(i+1)
			if c.IntN(6) == 0 {
				spoil(t, c, &e)
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
			if want, got := inventorytest.AsJSON(t, kept[ref]), inventorytest.AsJSON(t, read[ref]); got != want {
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
func spoil(t *testing.T, c inventorytest.Chance, e *inventory.Event) {
	t.Helper()
	var body map[string]any
	if err := json.Unmarshal([]byte(inventorytest.AsJSON(t, e.Body)), &body); err != nil {
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
	var whole map[string]json.RawMessage
	if err := json.Unmarshal([]byte(inventorytest.AsJSON(t, e)), &whole); err != nil {
		t.Fatal(err)
	}
	whole["body"] = json.RawMessage(inventorytest.AsJSON(t, body))
	var spoilt inventory.Event
	if err := json.Unmarshal([]byte(inventorytest.AsJSON(t, whole)), &spoilt); err != nil {
		t.Fatal(err)
	}
	*e = spoilt
}

// answerAll asks a state everything that it can be asked; nothing may fail.
func answerAll(state inventory.Entity) {
	if flagged, ok := state.(interface{ Flags() []inventory.Flag }); ok {
		flagged.Flags()
	}
	for _, at := range []time.Time{{}, inventorytest.Now(), inventorytest.Now().AddDate(0, -1, -10)} {
		switch s := state.(type) {
		case *inventory.Runner:
			s.StateAt(at)
			s.WearAt(at)
			s.Stints(at)
			s.Generation(at)
			s.SideAt(at)
			s.SetAt(at)
			s.OpenDamages(at)
		case *inventory.Holder:
			s.BootAt(at)
			s.RunnerAt(at)
			s.OpenDamages(at)
		case *inventory.Pair:
			s.Role(at)
			s.SetAt(at)
			s.HolderAt(inventory.Left, at)
		case *inventory.Set:
			s.Order(at)
			s.GroundSince(at, at)
		case *inventory.Player:
			specs := s.SpecsAt(at)
			_ = specs.String()
			s.Sweater(at)
			s.GroundSince(at, at)
			s.SetLettered("A")
		case *inventory.Club:
			s.Location()
		case *inventory.Roster:
			s.Wearing(17, at)
		}
	}
}

// A runner of which nothing but a newer program's entry is known is kept and read.
func TestStatesWithNoStockIn(t *testing.T) {
	var l inventory.Ledger
	high, _ := inventory.NewNumber(inventory.KindRunner, 1, 500)
	l.Add(inventorytest.ReadEvent(t, inventorytest.EventLine("loan", `{"piece":"`+high.String()+`"}`)))
	state := throughJSON(t, inventory.RefOf(high), l.Entity(inventory.RefOf(high)))
	if inventory.IsEntered(state) || len(state.(*inventory.Runner).Flags()) != 1 {
		t.Errorf("read again it is %+v", state)
	}
}

func FuzzEvent(f *testing.F) {
	for _, body := range []string{`{}`, `{"runner":"1100000171"}`, `{"pieces":["1100000171"],"side":"left"}`} {
		for _, kind := range []string{"grind", "in", "out", "rivet", "set", "stockin", "correction", "loan"} {
			f.Add(inventorytest.EventLine(kind, body))
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		var e inventory.Event
		if json.Unmarshal([]byte(text), &e) != nil {
			return
		}
		var again inventory.Event
		written := inventorytest.AsJSON(t, &e)
		if err := json.Unmarshal([]byte(written), &again); err != nil || inventorytest.AsJSON(t, &again) != written {
			t.Fatalf("%s was written as %s, and that as %s, %v", text, written, inventorytest.AsJSON(t, &again), err)
		}
		states := map[inventory.Ref]inventory.Entity{}
		for range 2 {
			apply(states, &e)
		}
		for ref, state := range states {
			answerAll(throughJSON(t, ref, state))
		}
		_ = inventory.Teller{View: &inventory.Ledger{}}.Line(&e)
	})
}
