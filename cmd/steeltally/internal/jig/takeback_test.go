package jig

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

// What a person agrees to take back is what was asked about, and nothing that was
// recorded before it where that is gone meanwhile.
func TestTheAnswerIsAboutWhatWasAsked(t *testing.T) {
	now := func() time.Time { return time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC) }
	options := desk.Options{Book: filepath.Join(t.TempDir(), "book"), Now: now}
	if err := desk.Init(options, deeds.FoundClub{Name: "Terns", Zone: "UTC"}); err != nil {
		t.Fatal(err)
	}
	d, err := desk.Open(options)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	for _, name := range []string{"Tove Brimhalt", "Ansgar Lindqvarn"} {
		if _, _, err := d.AddPlayer(deeds.AddPlayer{Name: name, Position: "forward"}); err != nil {
			t.Fatal(err)
		}
	}
	j := Jig{Desk: d, MayAsk: true}
	if _, err := j.Line("u"); err != nil || j.State.Asked == nil {
		t.Fatalf("nothing was asked: %v", err)
	}
	if _, err := d.Correct(desk.Correction{}); err != nil {
		t.Fatal(err)
	}
	var taken *desk.TakenBackError
	if _, err := j.Line("y"); !errors.As(err, &taken) {
		t.Errorf("an earlier entry was taken back: %v", err)
	}
}
