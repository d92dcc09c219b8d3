package demo

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// kinds counts the events by what happened, and by the words that say more.
func kinds(m *memory) map[string]int {
	counts := map[string]int{}
	for _, e := range m.events {
		counts[e.Body.Kind()]++
		for _, more := range detail(e) {
			counts[more]++
		}
	}
	return counts
}

func detail(e *inventory.Event) []string {
	late := e.Noted.Sub(e.Happened.Start) > 30*time.Minute
	switch b := e.Body.(type) {
	case *inventory.Ground:
		words := []string{"work " + string(b.Work)}
		if b.Left != nil && b.Right != nil && b.Left.Passes == nil && b.Work == "grind" {
			words = append(words, "unknown passes")
		}
		if b.Left != nil && b.Right != nil && b.Left.Passes != nil && *b.Left.Passes != *b.Right.Passes && b.Work == "grind" {
			words = append(words, "uneven")
		}
		if b.More {
			words = append(words, "one more")
		}
		if late && e.Happened.Exact() {
			words = append(words, "entered late")
		}
		if !e.Happened.Exact() {
			words = append(words, "vague time")
		}
		return words
	case *inventory.TakenOut:
		return []string{"reason " + string(b.Reason)}
	case *inventory.Damaged:
		return []string{"damage " + b.Piece.Kind().String() + " " + string(b.Mode)}
	case *inventory.Measured:
		if slices.ContainsFunc(b.Heights, func(h inventory.Height) bool { return h.AsRead }) {
			return []string{"reference " + string(b.Reference), "kept as read"}
		}
		return []string{"reference " + string(b.Reference)}
	case *inventory.Riveted:
		if b.Off && b.Runner != 0 {
			return []string{"holder off with its runner"}
		}
	case *inventory.Session:
		return []string{fmt.Sprintf("session game %v away %v", b.Game, b.Away)}
	case *inventory.Correction:
		word, _, _ := strings.Cut(b.Words, ":")
		word, _, _ = strings.Cut(word, " since")
		return []string{"correction " + word}
	}
	return nil
}

func TestEverythingOccurs(t *testing.T) {
	_, m := usual(t)
	counts := kinds(m)
	for what, least := range map[string]int{
		"club": 1, "player": 60, "specs": 50, "model": 6, "stockin": 100, "pair": 80, "set": 400, "put": 1000,
		"rivet": 150, "in": 1000, "out": 1000, "grind": 20_000, "measure": 1000, "damage": 80, "inspect": 1000,
		"session": 400, "correction": 60, "refusal": 5, "found": 10, "container": 10,
		"tried": 100, "skated": 100, "trip": 20, "packed": 60, "loaded": 30, "roster": 5, "kit": 4, "rules": 1,
		"callup": 3, "custody": 15, "answer": 5, "scrap": 1, "emergency": 3, "emergency-done": 3, "emergency-closed": 1,
		"work grind": 18_000, "work hone": 1000, "work nick": 200, "work profile": 300, "work new-hollow": 20,
		"unknown passes": 60, "uneven": 200, "one more": 50, "entered late": 400, "vague time": 50,
		"reason low": 200, "reason rotate": 500, "reason broken": 3, "reason cracked": 1, "reason bent": 1,
		"reason chipped": 1, "reason trial": 3,
		"damage runner break": 3, "damage holder crack": 10, "damage holder loose-rivet": 20, "damage holder loose-bolt": 5,
		"reference loose": 400, "reference fitted": 800, "kept as read": 4, "holder off with its runner": 5,
		"session game true away true": 30, "session game true away false": 30, "session game false away false": 200,
		"correction scanned twice": 15, "correction ground twice on purpose": 1, "correction wrong player": 8,
		"correction wrong set": 8, "correction left and right were swapped": 1, "correction wrong set scanned": 1,
		"correction misread": 2, "correction the height is right": 1, "correction moved to Sunday": 1, "correction wrong piece": 2, "correction counted wrongly": 3,
	} {
		if counts[what] < least {
			t.Errorf("%s occurs %d times, %d wanted", what, counts[what], least)
		}
	}
}
