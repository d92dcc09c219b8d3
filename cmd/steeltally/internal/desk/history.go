package desk

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/standing"
)

// HistoryLine is one entry in words.
type HistoryLine struct {
	Key      inventory.Key
	Happened string
	When     inventory.When
	Noted    time.Time
	Who      string
	Kind     string
	Words    string
	VoidedBy *inventory.Key
	Body     inventory.Body
}

// History is what is known of a thing: its state and its entries.
type History struct {
	State inventory.Entity
	Piece PieceLine // how it stands; a player does not
	Aside UnsafeAsides

	At    time.Time
	Lines []HistoryLine
	Left  int // earlier entries that were left out
	Flags []inventory.Flag
}

// shownEntries is how many of the latest entries are shown unless all are asked for.
const shownEntries = 50

// History tells a piece's, a set's, a pair's or a player's history, in the order in
// which it happened; asked about an instant, what had happened by then.
func (d *Desk) History(text string, all bool) (History, error) {
	ref, err := d.refOf(text, lookUpPlayer)
	if err != nil {
		return History{}, err
	}
	h := History{At: d.Instant()}
	limit := shownEntries
	asked := d.options.At != ""
	if all || asked {
		limit = 0
	}
	entries, err := d.book.History(ref, limit)
	if err != nil {
		return h, err
	}
	if h.Aside, err = d.UnsafeAsides(ref.Number()); err != nil {
		return h, err
	}
	if len(entries) == 0 {
		hint := cmp.Or(h.Aside.String(), "check the tag; a new piece is entered first: steeltally stockin")
		return h, &inventory.Refusal{Reason: ref.Number().Short() + " is not in this book", Hint: hint}
	}
	touching, err := d.book.Touching(ref)
	if err != nil {
		return h, err
	}
	if !all {
		h.Left = touching - len(entries)
	}
	look := func(v *standing.Now) error {
		h.State = v.Entity(ref)
		h.Piece = pieceLine(v, ref.Number(), h.At)
		h.Flags = flagsOf(h.State)
		h.Lines = d.tell(v, entries)
		slices.SortStableFunc(h.Lines, func(a, b HistoryLine) int { return a.When.Start.Compare(b.When.Start) })
		return nil
	}
	err = d.lookAt(ref.Number(), look)
	if asked {
		h.until(d.moment, all)
	}
	return h, err
}

// until leaves out what happened after a time, or after a day or month that is asked about.
func (h *History) until(asked inventory.When, all bool) {
	h.Left = 0
	h.Lines = slices.DeleteFunc(h.Lines, func(line HistoryLine) bool {
		return !asked.Unknown() && line.When.Start.After(asked.Start) && !line.When.Start.Before(asked.End)
	})
	if more := len(h.Lines) - shownEntries; more > 0 && !all {
		h.Left, h.Lines = more, h.Lines[more:]
	}
}

func (d *Desk) tell(v inventory.View, entries []book.Entry) []HistoryLine {
	teller, clocks := inventory.Teller{View: v}, inventory.ClocksOf(v)
	lines := make([]HistoryLine, len(entries))
	for i, entry := range entries {
		lines[i] = HistoryLine{
			Key: entry.Key, Happened: entry.Happened.Say(d.zone), When: entry.Happened, Noted: entry.Noted,
			Who: entry.Who, Kind: entry.Body.Kind(), Words: teller.Line(&entry.Event), VoidedBy: entry.VoidedBy, Body: entry.Body,
		}
		if entry.Off != 0 {
			lines[i].Words += fmt.Sprintf(" (by a clock that stood wrong: %s)", inventory.At(entry.Noted.Add(-entry.Off)).Say(d.zone))
		}
		if clocks.DoubtedAt(entry.Key) {
			lines[i].Words += " (the clock was in doubt)"
		}
	}
	return lines
}

// flagsOf lists what the record is unsure of about a thing.
func flagsOf(state inventory.Entity) []inventory.Flag {
	if flagged, ok := state.(interface{ Flags() []inventory.Flag }); ok {
		return flagged.Flags()
	}
	return nil
}

// setOn is the set that is on the pair that a target means.
func setOn(v inventory.View, target Target, at time.Time) (inventory.Number, error) {
	pair, err := pairMeant(v, target, at)
	if err != nil {
		return 0, err
	}
	set := pair.SetAt(at)
	if set == 0 {
		return 0, &inventory.Refusal{Reason: "no set is on that pair", Hint: "steeltally in puts one on"}
	}
	return set, nil
}

// pairMeant is the pair that a target means: the one named, else the one that its player
// skates on.
func pairMeant(v inventory.View, target Target, at time.Time) (*inventory.Pair, error) {
	if target.Pair != 0 {
		return inventory.FindPair(v, target.Pair)
	}
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return nil, err
	}
	on, err := standing.SkatesOn(v, player, at)
	return on.Pair, err
}
