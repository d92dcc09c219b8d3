package deeds

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestKindsOfANewerProgramAreCarriedAndFlagged(t *testing.T) {
	c := openClubhouse(t)
	high, _ := inventory.NewNumber(inventory.KindRunner, 1, 500)
	text := inventorytest.EventLine("loan", `{"to":"Cold Sound","pieces":["`+high.String()+`",{"pair":"`+c.pair.String()+`"}],"days":3}`)
	e := inventorytest.ReadEvent(t, text)
	if got := inventorytest.AsJSON(t, &e); got != text {
		t.Errorf("it came back as %s", got)
	}
	c.Add(e)
	c.flagged(c.pair, "newer program")
	c.flagged(high, "newer program")
	c.refuses("6 07:00", TakeRunnerOut{Runner: high, Reason: "low"}, "not in this book")
	if n := c.stock(inventory.KindRunner, "Model R", "", 1)[0]; n.Running() != 501 {
		t.Errorf("after %s comes %s: the newer program's number was given again", high.Short(), n.Short())
	}
	if said := (inventory.Teller{View: &c.Ledger}).Line(&e); said != "an entry of a newer program: loan" {
		t.Errorf("it reads %q", said)
	}
}

func TestNewerKindsThatNamePiecesOfNobodyAreFlaggedOnTheClub(t *testing.T) {
	for _, text := range []string{inventorytest.EventLine("wheel", `{"grit":80}`), inventorytest.EventLine("wheel", `null`), inventorytest.EventLine("wheel", `[]`), inventorytest.EventLine("grind", `"x"`), inventorytest.EventLine("grind", `null`)} {
		c := openClubhouse(t)
		e := inventorytest.ReadEvent(t, text)
		if got := inventorytest.AsJSON(t, &e); got != text {
			t.Errorf("%s came back as %s", text, got)
		}
		c.Add(e)
		if flags := inventory.ClubOf(&c.Ledger).Flags(); len(flags) != 1 || flags[0].Keys[0] != e.Key {
			t.Errorf("%s: flags %v", text, flags)
		}
	}
	bare := inventorytest.ReadEvent(t, strings.Replace(inventorytest.EventLine("wheel", `1`), `,"body":1`, ``, 1))
	if got := inventorytest.AsJSON(t, &bare); got != inventorytest.EventLine("wheel", `null`) {
		t.Errorf("an event without a body came back as %s", got)
	}
}

func TestFieldsOfANewerProgramAreCarriedAndFlagged(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	runner := c.runners[0].String()
	body := `{"player":"` + c.bo.String() + `","pair":"` + c.pair.String() + `","work":"grind","left":{"runner":"` + runner + `","passes":7,"grit":80},"coolant":"dry"}`
	text := strings.Replace(inventorytest.EventLine("grind", body), `"kind"`, `"zeal":{"a":[1,2]},"kind"`, 1)
	e := inventorytest.ReadEvent(t, text)
	if !e.Newer() {
		t.Fatal("nothing newer was seen in it")
	}
	got := inventorytest.AsJSON(t, &e)
	if !sameJSON(t, got, text) || !strings.Contains(got, `"coolant":"dry"`) {
		t.Errorf("it came back as %s", got)
	}
	c.Add(e)
	c.wearOf(c.runners[0], 1, 7) // what can be read counts
	c.flagged(c.runners[0], "newer program")
	c.flagged(c.bo, "newer program")
	again := inventorytest.ReadEvent(t, got)
	if !reflect.DeepEqual(e, again) {
		t.Errorf("read again it is %+v", again)
	}
}

func sameJSON(t *testing.T, a, b string) bool {
	t.Helper()
	var x, y any
	if json.Unmarshal([]byte(a), &x) != nil || json.Unmarshal([]byte(b), &y) != nil {
		t.Fatalf("no JSON: %s / %s", a, b)
	}
	return reflect.DeepEqual(x, y)
}

// What was said with an empty profile must not mean another thing once it was written.
func TestAnEmptyProfileIsNone(t *testing.T) {
	c := openClubhouse(t)
	eleven := inventory.Profile{3352.8}
	c.do("2 09:00", NoteSpecs{c.bo, inventory.Specs{Profile: eleven}})
	e := inventorytest.ReadEvent(t, inventorytest.EventLine("specs", `{"player":"`+c.bo.String()+`","profile_mm":[]}`))
	c.Add(e)
	if got := c.player(c.bo).SpecsAt(theNow).Profile; !got.Equal(eleven) {
		t.Errorf("the profile is %v", got)
	}
}
