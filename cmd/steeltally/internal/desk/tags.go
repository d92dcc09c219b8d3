package desk

import (
	"errors"
	"io"
	"strconv"
	"strings"

	"steeltally/geometry"
	"steeltally/inventory"
)

// DefaultDPI is the resolution of the usual tag printer.
const DefaultDPI geometry.DPI = 203

// TagJob says which tags shall come out, and where.
type TagJob struct {
	Pieces   []inventory.Number
	Template string       // empty: by the kind of each piece
	Sheet    string       // empty: the printer's, or the smallest roll that the tag fits on
	DPI      geometry.DPI // 0: the printer's, or DefaultDPI
	Start    int          // first free label of a part-used sheet, from 1; 0: where it goes on
	CutMarks bool
	Out      string              // the PDF or PNG to write, or
	To       io.Writer           // where the PDF goes, or
	Printer  string              // the printer of this machine that they go to
	Again    bool                // they came out before, and that is known
	Blank    bool                // blank tags, of numbers that are kept already
	Progress func(done, all int) // told after each tag; nil: nobody is
}

// Printed is what came out.
type Printed struct {
	File    string             `json:"file,omitempty"`
	Printer string             `json:"printer,omitempty"`
	Job     string             `json:"job,omitempty"` // the print queue's number for it
	Tags    int                `json:"tags"`
	Pages   int                `json:"pages"`
	Each    []PrintedTag       `json:"printed"`
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// PrintedTag is one tag that came out.
type PrintedTag struct {
	Number     inventory.Number `json:"number"`
	Template   string           `json:"template"`
	Generation int              `json:"generation,omitempty"`
	Times      int              `json:"times"` // this one included
	last       inventory.When   // the time before
	blank      bool             // no piece has the number yet
}

// PrintError says that tags did not come out; what was recorded before stands.
type PrintError struct {
	Cause    error
	Reprint  string // the command that tries again
	Recorded bool   // something was
}

func (e *PrintError) Error() string { return "the tags did not come out: " + e.Cause.Error() }
func (e *PrintError) Unwrap() error { return e.Cause }

// PrintTags brings out the tags of a job. The record is only read. What is wrong with
// the job itself is said as such; where it is the printer, that is a PrintError.
func (d *Desk) PrintTags(job TagJob) (Printed, error) {
	work, err := d.tagWork(job)
	if err != nil {
		return Printed{}, err
	}
	if err := work.layAll(d); err != nil {
		return Printed{}, err
	}
	return work.deliver(d)
}

// PrintAfter brings tags out after something was recorded, and counts them: whatever
// goes wrong is a PrintError.
func (d *Desk) PrintAfter(job TagJob) (Printed, error) {
	printed, err := d.PrintTags(job)
	if err != nil {
		var print *PrintError
		if errors.As(err, &print) {
			err = print.Cause
		}
		return printed, &PrintError{err, job.command(), true}
	}
	if err := d.For("", d.options.Who).notePrints(printed); err != nil { // the key is the action's
		printed.Notices = append(printed.Notices, uncounted(err))
	}
	return printed, nil
}

// mostNamed is how many pieces a command still names; with more nobody types it.
const mostNamed = 12

// command is what a person types to get the tags of a job again.
func (j TagJob) command() string {
	words := []string{"steeltally", "tag"}
	switch {
	case j.Blank:
		words = append(words, "--again")
	case len(j.Pieces) > mostNamed:
		return "the same command"
	default:
		for _, n := range j.Pieces {
			words = append(words, n.Short())
		}
	}
	for _, flag := range [][2]string{{"--template", j.Template}, {"--sheet", j.Sheet}} {
		if flag[1] != "" {
			words = append(words, flag[:]...)
		}
	}
	if j.Start > 0 {
		words = append(words, "--start", strconv.Itoa(j.Start))
	}
	if j.Printer != "" {
		return strings.Join(append(words, "--print", j.Printer), " ")
	}
	return strings.Join(append(words, "--out", "tags.pdf"), " ")
}
