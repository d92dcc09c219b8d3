package inventory_test

import (
	"math"
	"reflect"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// Whatever a body can hold is taken as long as it can be, and refused as soon as one
// member of it is beyond all bounds.
func TestWhatCannotBeHeldIsRefused(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 5)
	poisoned := 0
	for _, kind := range c.Kinds {
		for range 40 {
			e := c.Event()
			e.Body = c.Body(kind)
			if err := e.CheckHeld(); err != nil {
				t.Errorf("%s: %s: %v", kind, inventorytest.AsJSON(t, e.Body), err)
			}
			for _, leaf := range leavesOf(reflect.ValueOf(e.Body).Elem()) {
				was := reflect.ValueOf(leaf.Interface())
				for _, poison := range poisonsOf(leaf) {
					leaf.Set(poison.Convert(leaf.Type()))
					if e.CheckHeld() == nil {
						t.Errorf("%s: %v was taken", kind, poison)
					}
					poisoned++
				}
				leaf.Set(was)
			}
		}
	}
	if poisoned < 1000 {
		t.Errorf("only %d members were spoilt", poisoned)
	}
	for what, spoil := range map[string]func(*inventory.Event){
		"a year of noting":      func(e *inventory.Event) { e.Noted = time.Date(2101, 6, 1, 0, 0, 0, 0, time.UTC) },
		"a year":                func(e *inventory.Event) { e.Happened = inventory.At(time.Date(1989, 6, 1, 0, 0, 0, 0, time.UTC)) },
		"a name":                func(e *inventory.Event) { e.Who = "\x1b[2J" },
		"a caller's key":        func(e *inventory.Event) { e.Ticket = "\x00" },
		"fewer than none":       func(e *inventory.Event) { e.More = -1 },
		"a kind of its own":     func(e *inventory.Event) { e.Body = &inventory.Foreign{Name: "a\x01b"} },
		"a month of no year":    func(e *inventory.Event) { e.Body = &inventory.Session{Month: "schedule/2101-06"} },
		"a month that is lower": func(e *inventory.Event) { e.Body = &inventory.Session{Month: "schedule/2025-1"} },
	} {
		e := c.Event()
		spoil(&e)
		if e.CheckHeld() == nil {
			t.Errorf("%s was taken: %s", what, inventorytest.AsJSON(t, &e))
		}
	}
}

// leavesOf are the members with text and figures in them.
func leavesOf(v reflect.Value) []reflect.Value {
	switch v.Interface().(type) {
	case inventory.Number, inventory.Kind, inventory.Ref, inventory.When, time.Time:
		return nil
	}
	var leaves []reflect.Value
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return leavesOf(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			leaves = append(leaves, leavesOf(v.Index(i))...)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			leaves = append(leaves, leavesOf(v.Field(i))...)
		}
	case reflect.String, reflect.Int, reflect.Float64:
		return []reflect.Value{v}
	}
	return leaves
}

func poisonsOf(leaf reflect.Value) []reflect.Value {
	switch leaf.Kind() {
	case reflect.String:
		return []reflect.Value{reflect.ValueOf("a\x00"), reflect.ValueOf("\x1b"), reflect.ValueOf("\xff")}
	case reflect.Int:
		return []reflect.Value{reflect.ValueOf(-1), reflect.ValueOf(math.MaxInt)}
	}
	return []reflect.Value{reflect.ValueOf(1e308), reflect.ValueOf(-1e308), reflect.ValueOf(math.NaN())}
}
