package deeds

import (
	"errors"
	"strings"
	"testing"

	"steeltally/inventory"
)

// names checks whom a text stands for at a time.
func (d *desk) names(text, time string, want inventory.Number) {
	d.t.Helper()
	player, err := inventory.FindPlayer(&d.Ledger, text, at(d.t, time))
	if err != nil || player.Number != want {
		d.t.Errorf("%q at %s: %v, %v", text, time, player, err)
	}
}

// namesNobody checks that a text stands for nobody, and why.
func (d *desk) namesNobody(text, time, reason string) {
	d.t.Helper()
	player, err := inventory.FindPlayer(&d.Ledger, text, at(d.t, time))
	if err == nil || !strings.Contains(err.Error(), reason) {
		d.t.Errorf("%q at %s: %v, %v; want %q", text, time, player, err, reason)
	}
}

func TestPlayersByNumberNameAndSweater(t *testing.T) {
	c := openClubhouse(t)
	for _, text := range []string{"17", " 17 ", "Bo Quillon", "bo quillon", "bo q", c.bo.String(), c.bo.Short()} {
		c.names(text, "2 09:00", c.bo)
	}
	c.namesNobody("71", "2 09:00", "nobody is known as 71")
	c.namesNobody("17", "2025-10-31 09:00", "nobody wore 17 then; Bo Quillon wears it since") // not yet
	c.namesNobody("0", "2 09:00", "nobody")
	c.namesNobody("+7", "2 09:00", "nobody")
	c.namesNobody("", "2 09:00", "nobody")
	c.namesNobody("17171717", "2 09:00", "8 digits")
	c.namesNobody(c.pair.Short(), "2 09:00", "is a pair, not a player")
	c.namesNobody("１７", "2 09:00", "nobody") // full-width digits
}

func TestTwoPlayersWithOneNumber(t *testing.T) {
	c := openClubhouse(t)
	ida := c.give(AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: 17})
	c.told("also worn by Bo Quillon")
	_, err := inventory.FindPlayer(&c.Ledger, "17", at(t, "2 09:00"))
	var ambiguous *inventory.Ambiguous
	if !errors.As(err, &ambiguous) || len(ambiguous.Members) != 2 {
		t.Fatalf("got %v", err)
	}
	for _, name := range []string{"Bo Quillon", "Ida Sund", c.bo.Short(), ida.Short()} {
		if !strings.Contains(err.Error(), name) {
			t.Errorf("%q does not show %s", err, name)
		}
	}
	sweater := 18
	c.do("10 09:00", ChangePlayer{Player: ida, Sweater: &sweater})
	c.names("17", "10 09:00", c.bo)
	c.names("18", "10 09:00", ida)
	c.namesNobody("17", "9 09:00", "worn by 2 players")
}

func TestASweaterIsUsedAgain(t *testing.T) {
	c := openClubhouse(t)
	gone := true
	c.do("10 09:00", ChangePlayer{Player: c.bo, Gone: &gone})
	c.namesNobody("17", "10 09:00", "nobody")
	ida := given(t, c.do("12 09:00", AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: 17}))
	c.quiet()
	c.names("17", "12 09:00", ida)
	c.names("17", "9 09:00", c.bo) // a grind of that day that is entered late
	c.names("Bo Quillon", "12 09:00", c.bo)
	back := false
	c.do("14 09:00", ChangePlayer{Player: c.bo, Gone: &back})
	c.names("17", "14 09:00", ida) // he gets another number
	if sweater := c.player(c.bo).Sweater(at(t, "14 09:00")); sweater != 0 {
		t.Errorf("back again he wears %d", sweater)
	}
}

func TestNames(t *testing.T) {
	d := openBook(t)
	ina := d.give(AddPlayer{Name: "Ina Foss", Position: "forward"})
	for _, name := range []string{
		"Ångström Öre", "هدى سعيد", "李小狼", "Ida 🏒 Sund", "Zoë 👩\u200d🔧 Vane", "O'Hara-Lindqvist Jr.", "=HYPERLINK(\"x\")",
		"@SUM(A1)", "-2+3 Bo", "Bo, \"the wall\"; Quillon", strings.Repeat("n", 80), "  Ina  ",
	} {
		n := given(t, d.do("2 09:00", AddPlayer{Name: name, Position: "forward"}))
		if got := d.player(n).Name; got != strings.TrimSpace(name) {
			t.Errorf("%q was noted as %q", name, got)
		}
		d.names(name, "2 09:00", n)
	}
	for name, reason := range map[string]string{
		"": "is empty", " \t ": "is empty", "Bo\nQuillon": "can't be printed", "Bo\x00": "can't be printed", "Bo\x1b[31m": "can't be printed",
		"Bo \u202eollin": "can't be printed", "Bo\u2028Q": "can't be printed", "Bo\xff": "can't be printed", "\u200b": "can't be printed", "Zoë \u200d👩 Vane": "can't be printed",
		"17": "has no letter", "1000042744": "has no letter", "🏒": "has no letter", "-": "has no letter",
		strings.Repeat("n", 81): "81 letters",
	} {
		d.refuses("2 09:00", AddPlayer{Name: name, Position: "forward"}, reason)
		d.refuses("2 09:00", ChangePlayer{Player: ina, Name: &name}, reason)
	}
}

func TestPeopleThatCannotBe(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("2 09:00", AddPlayer{Name: "Ida Sund", Position: "winger"}, "not known")
	c.refuses("2 09:00", AddPlayer{Name: "Ida Sund", Position: ""}, "not known")
	c.refuses("2 09:00", AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: 100}, "from 1 to 99")
	c.refuses("2 09:00", AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: -1}, "from 1 to 99")
	name := "  Bo Quill "
	c.do("2 09:00", ChangePlayer{Player: c.bo, Name: &name})
	c.names("Bo Quill", "2 09:00", c.bo)
	c.names("17", "2 09:00", c.bo)
}

func TestSpecsHoldFromADay(t *testing.T) {
	c := openClubhouse(t)
	six, zero := 6, 0
	deep, _ := inventory.ParseCut("3/8in")
	c.do("10 09:00", NoteSpecs{c.bo, inventory.Specs{Hollow: &deep}})
	c.do("5 09:00", NoteSpecs{c.bo, inventory.Specs{Passes: &six}}) // entered late
	for time, want := range map[string]string{"4 09:00": "1/2 in, 5 passes", "5 09:00": "1/2 in, 6 passes", "10 09:00": "3/8 in, 6 passes"} {
		specs := c.player(c.bo).SpecsAt(at(t, time))
		if got := specs.String(); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q, want %q", time, got, want)
		}
	}
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{}}, "no spec was given")
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{Passes: &zero}}, "0 passes")
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{ChangeHeight: mm(84)}}, "can't be right")
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{Pitch: mm(-11)}}, "no holder's")
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{Hollow: &inventory.Cut{Radius: 1}}}, "no wheel's")
	c.refuses("11 09:00", NoteSpecs{c.bo, inventory.Specs{Profile: inventory.Profile{11}}}, "no runner's")
	c.refuses("11 09:00", NoteSpecs{c.pair, inventory.Specs{Passes: &six}}, "is a pair, not a player")
}
