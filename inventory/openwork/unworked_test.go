package openwork_test

import (
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/openwork"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
)

// faulty is a record in which one thing can't be read without a fault of the program.
type faulty struct {
	inventory.View
	at inventory.Number
}

func (f faulty) Entity(ref inventory.Ref) inventory.Entity {
	if ref == inventory.RefOf(f.at) {
		var none []inventory.Entity
		return none[f.at]
	}
	return f.View.Entity(ref)
}

// A fault in what is recorded of one player leaves the others' lines; his pair counts as
// missing, and what waits for him as not told.
func TestOnesFaultLeavesTheOthersPairs(t *testing.T) {
	c := openClub(t)
	seven, eight := c.add(7), c.add(8)
	v := faulty{&c.Ledger, seven.spare}
	squad := sparepair.Squad(standingtest.Look(v, theNow))
	if len(squad) != 2 {
		t.Fatalf("%d lines", len(squad))
	}
	if bad := squad[0]; bad.Number != seven.number || bad.Unworked == nil || bad.State() != sparepair.Missing || !strings.Contains(bad.Spare.Cause().What, "could not be worked out") {
		t.Errorf("%+v", bad)
	}
	if good := squad[1]; good.Number != eight.number || good.Unworked != nil || good.State() != sparepair.Ready {
		t.Errorf("%+v", good)
	}
	told := false
	for _, item := range openwork.Work(standingtest.Look(v, theNow)) {
		told = told || item.Sort == openwork.WorkUnworked && item.Player == seven.number && item.Unworked != nil && strings.HasPrefix(item.What, "7 ")
		if item.Player == eight.number {
			t.Errorf("of 8 waits %s", item.What)
		}
	}
	if !told {
		t.Errorf("nothing says that it can't be told what waits for 7")
	}
}
