package desk

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/templates"
)

// containerContent is the tag of a trunk or a bin: its name and what lies in it.
func (d *Desk) containerContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return err
	}
	c.Name = container.Name
	for _, held := range contentsOf(v, container.Name, at) {
		c.Lines = append(c.Lines, held.String())
	}
	return nil
}

// held is how many pieces of a kind lie in a trunk or bin.
type held struct {
	kind  inventory.Kind
	count int
}

func (h held) String() string {
	if h.count == 1 {
		return fmt.Sprintf("1 %s", h.kind)
	}
	return fmt.Sprintf("%d %ss", h.count, h.kind)
}

// contentsOf counts the pieces whose place is a name.
func contentsOf(v inventory.View, name string, at time.Time) []held {
	var all []held
	for _, kind := range []inventory.Kind{inventory.KindPair, inventory.KindSet, inventory.KindRunner, inventory.KindHolder} {
		count := 0
		v.Each(kind, func(_ inventory.Number, state inventory.Entity) bool {
			if placed, ok := state.(interface {
				Place(time.Time) inventory.Place
			}); ok && placed.Place(at).Name == name {
				count++
			}
			return true
		})
		if count > 0 {
			all = append(all, held{kind, count})
		}
	}
	return all
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
