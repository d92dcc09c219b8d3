package desk

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// printedBefore is a tag with how often it came out, this time included.
func printedBefore(v inventory.View, template string, n inventory.Number, at time.Time) PrintedTag {
	tag := PrintedTag{Number: n, Template: template, Generation: generationOf(v, n, at), Times: 1, blank: inventory.IsBlank(v, n) || n.Kind() == inventory.KindAction}
	if state, ok := v.Entity(inventory.RefOf(n)).(interface {
		PrintsOf(template string, generation int) inventory.Print
	}); ok {
		before := state.PrintsOf(template, tag.Generation)
		tag.Times, tag.last = before.Times+1, before.Last
	}
	return tag
}

// generationOf is the generation of a piece's tag: of a runner that is put back in use,
// of a holder that is riveted on again, the old tag is void.
func generationOf(v inventory.View, n inventory.Number, at time.Time) int {
	switch state := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		return state.Generation(at)
	case *inventory.Holder:
		return state.Generation(at)
	}
	return 0
}

// tellPrints says which tags came out before, unless that is known.
func (w *tagWork) tellPrints(d *Desk) {
	var again []PrintedTag
	for _, tag := range w.printed.Each {
		if tag.Times > 1 {
			again = append(again, tag)
		}
	}
	if len(again) == 0 || w.job.Again || isPicture(w.job.Out) {
		return
	}
	const hint = "throw the earlier ones away, or keep them for a spare"
	if len(again) > 1 {
		w.tell(fmt.Sprintf("%d of these tags came out before", len(again)), hint)
		return
	}
	w.tell(again[0].said(d), hint)
}

// said says how often a tag came out, and when last before.
func (t PrintedTag) said(d *Desk) string {
	if t.Times == 1 {
		return fmt.Sprintf("tag %s of %s: printed for the first time", t.Template, t.Number.Short())
	}
	return fmt.Sprintf("tag %s of %s: printed %d times now, before this last on %s", t.Template, t.Number.Short(), t.Times, t.last.Say(d.zone))
}

// SayPrints says of each tag how often it came out.
func (d *Desk) SayPrints(p Printed) []string {
	var lines []string
	for _, tag := range p.Each {
		lines = append(lines, tag.said(d))
	}
	return lines
}

// notePrints counts tags that came out, now, whatever time the action was about. A
// preview, and blank tags, are no prints.
func (d *Desk) notePrints(p Printed) error {
	notes := p.inventoryOf()
	if len(notes) == 0 || isPicture(p.File) {
		return nil
	}
	now := d.options.Now()
	_, err := d.record(now, func(v inventory.View) ([]inventory.Draft, error) {
		outcome, err := notes.Decide(v, deeds.Moment{Happened: inventory.At(now), Now: now})
		return append(outcome.Drafts, d.doubted(v, outcome.Drafts, now)...), err
	})
	return err
}

// CountPrints opens the book to count tags that came out of a book open for reading.
// That it can't be opened for writing is no reason to say that nothing came out.
func CountPrints(o Options, p Printed) []inventory.Notice {
	o.At = ""
	d, err := Open(o)
	if err == nil {
		defer d.Close()
		err = d.notePrints(p)
	}
	if err != nil {
		return []inventory.Notice{uncounted(err)}
	}
	return nil
}

func uncounted(err error) inventory.Notice {
	return inventory.Notice{Text: "the tags came out, but the book does not count them: " + err.Error(), Hint: "there is nothing to do"}
}

// LastPrinted are the pieces whose tags came out last, for printing them again.
func (d *Desk) LastPrinted() (TagJob, error) {
	entries, err := d.book.Latest(recentEntries)
	if err != nil {
		return TagJob{}, err
	}
	events := onlyStanding(entries)
	last := len(events) - 1
	for last >= 0 && piecesPrinted(&events[last]) == nil {
		last--
	}
	if last < 0 {
		return TagJob{}, &inventory.Refusal{Reason: "no tags came out lately", Hint: "name the pieces: steeltally tag R1-1-77 --again"}
	}
	job := TagJob{Template: templateOf(&events[last])}
	for first := last; first >= 0 && (first == last || sameAction(&events[first], &events[first+1])); first-- {
		if templateOf(&events[first]) != job.Template {
			job.Template = ""
		}
		job.Pieces = append(piecesPrinted(&events[first]), job.Pieces...)
	}
	return job, nil
}

// piecesPrinted are the pieces whose tags came out by an event, or nil.
func piecesPrinted(e *inventory.Event) []inventory.Number {
	switch b := e.Body.(type) {
	case *inventory.Printed:
		var pieces []inventory.Number
		for _, tag := range b.Tags {
			pieces = append(pieces, tag.Piece)
		}
		return pieces
	case *inventory.Reserved:
		return b.Numbers()
	}
	return nil
}

func templateOf(e *inventory.Event) string {
	if b, ok := e.Body.(*inventory.Printed); ok {
		return b.Template
	}
	return ""
}

// PrintedBefore is what came out with the caller's own key, where something did: given
// again, nothing comes out.
func (d *Desk) PrintedBefore() (Printed, bool, error) {
	done, known, err := d.Known()
	printed := Printed{}
	for i := range done.Events {
		if b, ok := done.Events[i].Body.(*inventory.Printed); ok {
			printed.Tags += len(b.Tags)
			printed.Printer, printed.Job = b.Printer, b.Job
		}
	}
	if known {
		printed.Notices = []inventory.Notice{{
			Text: fmt.Sprintf("key %q was given before: %s came out then, and nothing was printed now", d.options.Ticket, SayCount(printed.Tags, "tag")),
			Hint: "to print again give another key, or none",
		}}
	}
	return printed, known, err
}

// PrintCounted brings tags out by themselves, not after something was recorded, and
// counts them.
func (d *Desk) PrintCounted(job TagJob) (Printed, error) {
	if before, known, err := d.PrintedBefore(); known || err != nil {
		return before, err
	}
	printed, err := d.PrintTags(job)
	if err != nil {
		return printed, err
	}
	if err := d.notePrints(printed); err != nil {
		printed.Notices = append(printed.Notices, uncounted(err))
	}
	return printed, nil
}

// PrintList is what was printed lately, and what waits for a tag.
type PrintList struct {
	Owed []OwedTag
	Jobs []PrintJob // the latest first
}

// OwedTag is steel that is done with and has no tag.
type OwedTag struct {
	Number inventory.Number
	Words  string
}

// PrintJob is tags that came out together.
type PrintJob struct {
	When     string
	Template string
	Printer  string // empty: a file
	Job      string
	Pieces   []inventory.Number
}

// owedBack is how far back steel that came off without a tag is looked for.
const owedBack = 30 * 24 * time.Hour

// mostJobs is how many prints a list still shows.
const mostJobs = 20

// PrintList tells of the prints of late, and of steel that waits for its tag.
func (d *Desk) PrintList() (PrintList, error) {
	var list PrintList
	entries, err := d.book.Latest(recentEntries)
	if err != nil {
		return list, err
	}
	since := d.Instant().Add(-owedBack)
	err = d.book.Read(func(v inventory.View) error {
		for _, e := range slices.Backward(onlyStanding(entries)) {
			switch b := e.Body.(type) {
			case *inventory.Printed:
				if len(list.Jobs) < mostJobs {
					list.Jobs = append(list.Jobs, PrintJob{e.Happened.Say(d.zone), b.Template, b.Printer, b.Job, piecesPrinted(&e)})
				}
			case *inventory.TakenOut:
				if e.Happened.Start.After(since) {
					list.owe(v, d, b)
				}
			}
		}
		return nil
	})
	return list, err
}

// owe adds the retired runners of a change whose present generation has no tag.
func (l *PrintList) owe(v inventory.View, d *Desk, taken *inventory.TakenOut) {
	for _, removal := range taken.Each {
		runner, err := inventory.FindRunner(v, removal.Runner)
		if err != nil || !removal.Retired || standing.RunnerState(v, runner, d.Instant()) != inventory.Removed {
			continue
		}
		generation := runner.Generation(d.Instant())
		printed := runner.PrintsOf("tie-on", generation).Times + runner.PrintsOf("tie-on-folded", generation).Times
		if printed == 0 {
			l.Owed = append(l.Owed, OwedTag{removal.Runner, describe(removal.Runner, runner.Model, runner.Size, runner.SideAt(d.Instant()))})
		}
	}
}
