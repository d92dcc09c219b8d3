package desk

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

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
