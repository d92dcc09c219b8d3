package outlook

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// spoilt is a look at 7 and 17, with a fault put into what was gathered of 7.
func spoilt(t *testing.T, spoil func(*standing.Member)) *Outlook {
	b := openBench(t)
	b.busy(80)
	seven := b.skater(7, "forward")
	b.worn(seven, b.steel(seven, "Skua R"), 5)
	var members []*standing.Member
	for _, m := range inventory.RosterOf(b).Members {
		member, err := standing.Gather(b, m.Player, theNow)
		if err != nil {
			t.Fatal(err)
		}
		if m.Player == seven {
			spoil(member)
		}
		members = append(members, member)
	}
	o, err := lookAt(b, members)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// A fault in what is known of one player leaves the other's line as it is without him.
func TestOnesFaultLeavesTheOthersLines(t *testing.T) {
	fault := 0
	for name, spoil := range map[string]func(*standing.Member){
		"nothing where steel should be": func(m *standing.Member) { m.Present = append(m.Present, nil) },
		"a pair without boots":          func(m *standing.Member) { m.Pairs[0].Pair = nil },
		"a height that is none": func(m *standing.Member) {
			for _, s := range m.Present {
				*s.Left.Readings[1].Value.Middle = 0
				*s.Left.Readings[1].Value.Middle /= *s.Left.Readings[1].Value.Middle
			}
		},
	} {
		o := spoilt(t, spoil)
		first, _, unworked := o.Due()
		if len(first) != 1 || first[0].Sweater != 17 || first[0].Passes == nil {
			t.Errorf("%s: %d lines of the other", name, len(first))
		}
		if len(unworked) != 1 || unworked[0].Whose() != "7 Tove Brimhalt" || !strings.HasPrefix(unworked[0].Say(), "could not be worked out: ") {
			t.Fatalf("%s: not told of 7: %+v", name, unworked)
		}
		if defect := new(inventory.Defect); errors.As(unworked[0].Cause, &defect) {
			fault++
			if !strings.Contains(defect.Trail, "outlook") {
				t.Errorf("%s: the trail is %q", name, defect.Trail)
			}
		}
		bought, err := o.Buy(day(60), nil, rand.New(rand.NewPCG(1, 2)))
		if err != nil || len(bought.Needs) != 1 || bought.Needs[0].Players != 1 || len(bought.Unworked) != 1 {
			t.Errorf("%s: to buy: %+v, %v", name, bought, err)
		}
		if only, _, more := o.Due(first[0].Player); len(only) != 1 || len(more) != 0 {
			t.Errorf("%s: asked of 17 alone: %+v, %+v", name, only, more)
		}
		if _, err := o.LookBack(60); err != nil {
			t.Errorf("%s: looking back: %v", name, err)
		}
	}
	if fault != 2 {
		t.Errorf("%d of the faults stop the program without a guard, want 2", fault)
	}
}

// One that could not be gathered at all is told, too.
func TestWhoCannotBeGatheredIsTold(t *testing.T) {
	b := openBench(t)
	player := b.skater(7, "forward")
	o, err := lookAt(b, nil, inventory.Unworked{About: player, Name: "Tove Brimhalt", Cause: errors.New("torn")})
	if err != nil {
		t.Fatal(err)
	}
	if _, _, unworked := o.Due(); len(unworked) != 1 || unworked[0].Whose() != "Tove Brimhalt" {
		t.Errorf("%+v", unworked)
	}
}

// A role in which nobody alone is at fault is left out as a whole; the other role stands.
func TestAWholeRoleIsLeftOut(t *testing.T) {
	b := openBench(t)
	keeper := b.skater(31, "goalkeeper")
	b.worn(keeper, b.steel(keeper, "Skua R"), 5)
	skater := b.skater(7, "forward")
	b.worn(skater, b.steel(skater, "Skua R"), 5)
	o := b.look()
	fails := 0
	o.Unworked = nil
	o.Keep(func(m *standing.Member) error {
		if m.Goalkeeper() {
			fails++
			return errors.New("torn")
		}
		return nil
	})
	first, _, unworked := o.Due()
	if fails != 1 || len(first) != 1 || first[0].Player != skater || len(unworked) != 1 || unworked[0].About != keeper {
		t.Errorf("%+v, %+v", first, unworked)
	}
}
