package desk

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/templates"
)

// containerContent is the tag of a trunk or a bin: its name and what lies in it.
func (d *Desk) containerContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return err
	}
	c.Name = container.Name
	c.Lines = contentsOf(v, container.Name, at)
	return nil
}

// contentsOf says what lies at a place, first how much of it nobody may skate on: "1 of
// them: DO NOT SKATE", "2 pairs", "1 runner".
func contentsOf(v inventory.View, name string, at time.Time) []string {
	var lines []string
	unsafe := 0
	counts := map[inventory.Kind]int{}
	for _, n := range standing.Inside(v, name, at) {
		counts[n.Kind()]++
		if !standing.Skateable(v, at, n) {
			unsafe++
		}
	}
	if unsafe > 0 {
		lines = append(lines, fmt.Sprintf("%d of them: DO NOT SKATE", unsafe))
	}
	for _, kind := range []inventory.Kind{inventory.KindPair, inventory.KindSet, inventory.KindRunner, inventory.KindHolder} {
		if counts[kind] > 0 {
			lines = append(lines, SayCount(counts[kind], kind.String()))
		}
	}
	return lines
}

// NoteContainer enters a trunk or a bin and gives its number.
func (d *Desk) NoteContainer(deed deeds.NoteContainer) (inventory.Number, Done, error) {
	done, err := d.do(deed)
	return made(done, func(b *inventory.ContainerNoted) inventory.Number { return b.Container }), done, err
}

// named puts the name of a trunk or bin in the place of its scanned number.
func named(v inventory.View, place inventory.Place) (inventory.Place, error) {
	n, err := inventory.ParseNumber(place.Name)
	if err != nil || n.Kind() != inventory.KindTrunk && n.Kind() != inventory.KindBin {
		return place, nil
	}
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return place, err
	}
	place.Name = container.Name
	return place, nil
}
