package inventory_test

import (
	"testing"

	"steeltally/inventory"
)

func TestMinutesAreTold(t *testing.T) {
	piece, err := inventory.NewNumber(inventory.KindRunner, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	for minutes, words := range map[float64]string{4: "4 min", 2.5: "2.5 min", 1440: "1440 min", 1.0 / 3: "0.33 min"} {
		line := inventory.Teller{}.Line(&inventory.Event{Body: &inventory.Damaged{Piece: piece, Mode: "crack", Minutes: &minutes}})
		if want := piece.Short() + " crack, took " + words; line != want {
			t.Errorf("%s, want %s", line, want)
		}
	}
}
