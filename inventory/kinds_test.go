package inventory_test

import (
	"reflect"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestEveryKindIsKnown(t *testing.T) {
	types := inventorytest.KindsInSource(t, ".")
	if len(types) < 15 {
		t.Fatalf("only %d kinds were found in the source", len(types))
	}
	for kind, name := range types {
		body := inventory.NewBody(kind)
		if body == nil {
			t.Errorf("%s: newBody does not know it, so it would be read as foreign", kind)
			continue
		}
		if body.Kind() != kind || reflect.TypeOf(body).Elem().Name() != name {
			t.Errorf("%s is made as %T of kind %s, want %s", kind, body, body.Kind(), name)
		}
	}
	if body := inventory.NewBody("loan"); body != nil {
		t.Errorf("an unknown kind is a %T", body)
	}
}

// Every kind is said in words of its own.
func TestEveryKindIsTold(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 2)
	for _, kind := range c.Kinds {
		for range 50 {
			e := c.Event()
			e.Body = c.Body(kind)
			if line := (inventory.Teller{View: &inventory.Ledger{}}).Line(&e); line == "" || strings.Contains(line, "newer program") || strings.Contains(line, "\n") {
				t.Fatalf("%s reads %q", inventorytest.AsJSON(t, &e), line)
			}
		}
	}
}
