package desk

import (
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/roadtrip"
)

// LyingAbout lists what lies about, place by place.
func (d *Desk) LyingAbout() (all []Lying, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		all = roadtrip.LyingAbout(v, at)
		return nil
	})
	return all, err
}

// Lying is a place with what lies there at the season's end.
type Lying = roadtrip.Lying

// ScrapAt throws away everything that is done with at a place, but for what is named.
func (d *Desk) ScrapAt(place, reason string, but []string) (Done, error) {
	kept, err := ScannedAll(but)
	if err != nil {
		return Done{}, err
	}
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		where, err := named(v, inventory.Place{Name: place})
		if err != nil {
			return nil, err
		}
		deed := deeds.Scrap{Reason: reason}
		for _, lying := range roadtrip.LyingAbout(v, d.Instant()) {
			if lying.Place != "" && strings.EqualFold(lying.Place, where.Name) {
				deed.Pieces = append(deed.Pieces, lying.Done...)
			}
		}
		deed.Pieces = slices.DeleteFunc(deed.Pieces, func(n inventory.Number) bool { return slices.Contains(kept, n) })
		if len(deed.Pieces) == 0 {
			return nil, &inventory.Refusal{Reason: "nothing that is done with lies at " + place, Hint: "steeltally clearout shows what lies where"}
		}
		return deed, nil
	})
}
