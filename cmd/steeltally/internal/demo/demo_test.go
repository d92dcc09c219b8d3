package demo

import (
	"fmt"
	"testing"
	"time"

	"steeltally/inventory"
)

func TestTry(t *testing.T) {
	for seed := range uint64(4) {
		start := time.Now()
		c, m := played(t, Options{Seed: seed, End: endDay()})
		counts := map[string]int{}
		for _, e := range m.events {
			kind := e.Body.Kind()
			if b, ok := e.Body.(*inventory.Ground); ok {
				kind += " " + b.Work
			}
			if b, ok := e.Body.(*inventory.TakenOut); ok {
				kind += " " + b.Reason
			}
			if b, ok := e.Body.(*inventory.Correction); ok {
				kind += " " + fmt.Sprintf("%.11s", b.Words)
			}
			counts[kind]++
		}
		removed := 0
		for n := range c.runners {
			if m.states[inventory.RefOf(n)].(*inventory.Runner).StateAt(c.end) == inventory.Removed {
				removed++
			}
		}
		t.Log(seed, c.opening.Format("2006-01-02"), "runners", len(c.runners), "removed", removed, "events", c.entered, time.Since(start), c.skaters.LogWear, len(c.players), c.truth().Open)
		t.Log(counts)
	}
}
