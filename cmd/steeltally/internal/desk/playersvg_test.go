package desk

import (
	"bytes"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/inventory"
)

// A pair that was scanned is drawn with the steel that is on it, a player with that of
// his first pair; of a pair with nothing on it nothing is foretold.
func TestPlotIsOfThePairThatWasScanned(t *testing.T) {
	s := newSeason(t, 1)
	var spare, third inventory.Number
	s.at(70, func(d *Desk) (err error) {
		if spare, _, err = d.AddPair("2", "spare"); err != nil {
			return err
		}
		if third, _, err = d.AddPair("2", "third"); err != nil {
			return err
		}
		_, err = d.PutIn("2", "C", "spare")
		return err
	})
	for i, height := range []geometry.Millimetre{11.7, 10.8} {
		s.wear(71+2*i, spare.String(), height)
	}
	s.read(func(d *Desk) {
		o, err := d.look(d.Instant())
		if err != nil {
			t.Fatal(err)
		}
		card, err := d.Card(spare.String())
		if err != nil {
			t.Fatal(err)
		}
		bench, err := d.Bench(card.Target)
		if err != nil || bench.Pair != spare || bench.Set != "C" {
			t.Errorf("pair %s, set %q, %v", bench.Pair, bench.Set, err)
		}
		draw := func(who string) string {
			var out bytes.Buffer
			if err := drawPlayer(d, &out, who, o); err != nil {
				t.Fatal(err)
			}
			return out.String()
		}
		byPlayer, bySpare, byThird := draw("2"), draw(spare.String()), draw(third.String())
		for what, picture := range map[string]string{"first pair": byPlayer, "spare pair": bySpare} {
			if !strings.Contains(picture, what) || !strings.Contains(picture, "stroke-dasharray") {
				t.Errorf("%s: it is not said, or nothing is foretold", what)
			}
		}
		if byPlayer == strings.ReplaceAll(bySpare, "spare pair", "first pair") {
			t.Error("both pairs are drawn with the same steel")
		}
		if !strings.Contains(byThird, "third pair") || strings.Contains(byThird, "stroke-dasharray") {
			t.Error("something is foretold of a pair with nothing on")
		}
	})
}
