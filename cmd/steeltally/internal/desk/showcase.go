package desk

import (
	"path/filepath"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Showcase is what a demonstration prints beside its book.
type Showcase struct {
	Tags   string `json:"tags"`   // the last month's removed runners
	Pairs  string `json:"pairs"`  // the spare pairs
	Review string `json:"review"` // one plain page of tables
	Noted  int    `json:"-"`      // entries that say which tags came out
}

// monthOfTags is how far back removed runners get their tags in a demonstration.
const monthOfTags = 30 * 24 * time.Hour

// PrintShowcase prints the last month's removed runners, the spare pairs and a page of
// tables into a folder, and notes the tags as any that came out.
func (d *Desk) PrintShowcase(dir string) (Showcase, error) {
	show := Showcase{Tags: filepath.Join(dir, "tags.pdf"), Pairs: filepath.Join(dir, "pairs.pdf"), Review: filepath.Join(dir, "review.pdf")}
	removed, spares, err := d.lastMonth()
	if err != nil {
		return show, err
	}
	for _, job := range []TagJob{{Pieces: removed, Template: "tie-on", Out: show.Tags}, {Pieces: spares, Template: "pair", Out: show.Pairs}} {
		printed, err := d.PrintTags(job)
		if err == nil {
			err = d.notePrints(printed)
		}
		if err != nil {
			return show, err
		}
		show.Noted += len(printed.inventoryOf())
	}
	return show, d.printReview(show.Review)
}

// lastMonth lists the runners removed in the last month, the latest first, and the
// spare pairs of who is with the club.
func (d *Desk) lastMonth() (removed, spares []inventory.Number, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		off := map[inventory.Number]time.Time{}
		for n, entity := range eachOf(v, inventory.KindRunner) {
			runner := entity.(*inventory.Runner)
			stints := runner.Stints(at)
			if len(stints) == 0 || standing.RunnerState(v, runner, at) != inventory.Removed {
				continue
			}
			if out := stints[len(stints)-1].Out.Start; out.After(at.Add(-monthOfTags)) {
				off[n] = out
				removed = append(removed, n)
			}
		}
		slices.SortStableFunc(removed, func(a, b inventory.Number) int { return off[b].Compare(off[a]) })
		for n, entity := range eachOf(v, inventory.KindPair) {
			pair := entity.(*inventory.Pair)
			if owner, err := inventory.PlayerOf(v, pair.Player); err == nil && !owner.Gone && pair.Role(at) == inventory.RoleSpare {
				spares = append(spares, n)
			}
		}
		return nil
	})
	return removed, spares, err
}

// eachOf ranges over the recorded pieces of a kind; a number whose stock-in was taken
// back has no piece.
func eachOf(v inventory.View, kind inventory.Kind) func(yield func(inventory.Number, inventory.Entity) bool) {
	return func(yield func(inventory.Number, inventory.Entity) bool) {
		v.Each(kind, func(n inventory.Number, entity inventory.Entity) bool {
			if piece, ok := entity.(interface{ Entered() bool }); ok && !piece.Entered() {
				return true
			}
			return yield(n, entity)
		})
	}
}

// printReview prints the club's review.
func (d *Desk) printReview(path string) error {
	review, err := d.Review(ReviewAsked{})
	if err != nil {
		return err
	}
	_, err = d.PrintReview(review, Sheet{File: path})
	return err
}
