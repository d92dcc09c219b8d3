package desk

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/labels"
	"steeltally/labels/png"
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

// templateFor is the template that was asked for, or the one that goes with the piece:
// what is done with or must not be used gets a tag tied on, a runner on the shelf has
// it on its sleeve.
func (j TagJob) templateFor(v inventory.View, n inventory.Number, at time.Time) string {
	if j.Template != "" {
		return j.Template
	}
	switch n.Kind() {
	case inventory.KindHolder:
		if holder, err := inventory.FindHolder(v, n); err == nil && (standing.HolderState(v, holder, at) == inventory.Removed || !standing.Skateable(v, at, n)) {
			return "tie-on"
		}
		return "holder-spot"
	case inventory.KindPair, inventory.KindSet, inventory.KindTrunk, inventory.KindBin, inventory.KindAction:
		return n.Kind().String()
	}
	if runner, err := inventory.FindRunner(v, n); err == nil && standing.RunnerState(v, runner, at) == inventory.Removed {
		return "tie-on"
	}
	return "sleeve-strip"
}

// kindsOf lists which kinds of piece one of the program's templates is for; a club's
// own may be for any.
func kindsOf(template string) []inventory.Kind {
	switch strings.TrimSuffix(template, "-folded") {
	case "tie-on":
		return []inventory.Kind{inventory.KindRunner, inventory.KindHolder}
	case "sleeve-strip", "sleeve-spot":
		return []inventory.Kind{inventory.KindRunner}
	case "holder-spot":
		return []inventory.Kind{inventory.KindHolder}
	case "set":
		return []inventory.Kind{inventory.KindSet}
	case "pair":
		return []inventory.Kind{inventory.KindPair}
	case "trunk":
		return []inventory.Kind{inventory.KindTrunk}
	case "bin":
		return []inventory.Kind{inventory.KindBin}
	case "action":
		return []inventory.Kind{inventory.KindAction}
	}
	return nil
}

// checkKind refuses a piece that a template is not for.
func checkKind(template string, kind inventory.Kind) error {
	kinds := kindsOf(template)
	if len(kinds) == 0 || slices.Contains(kinds, kind) {
		return nil
	}
	hint := "leave --template out to get the tag that goes with each piece"
	if kind == inventory.KindPlayer { // none goes with him
		hint = "name his pair, a set or a piece: steeltally set list PLAYER shows his sets"
	}
	return inventory.RefuseValue(fmt.Sprintf("template %s is for a %s, not for a %s", template, kinds[0], kind), hint)
}

// meant are the pieces whose tags a job means, each once. Where the tag of a set or pair
// was asked for, a runner or holder stands for the one that it belongs or last belonged
// to. What a template is not for is left out and told; it is refused where nothing else
// was asked for.
func (w *tagWork) meant(v inventory.View, at time.Time) ([]inventory.Number, error) {
	kinds := kindsOf(w.job.Template)
	if len(kinds) == 0 {
		return w.job.Pieces, nil
	}
	var meant []inventory.Number
	var refused error
	for _, n := range w.job.Pieces {
		stands := standsFor(v, n, kinds[0], at)
		if err := checkKind(w.job.Template, stands.Kind()); err != nil {
			w.tell(n.Short()+" is left out", fmt.Sprintf("template %s is for a %s", w.job.Template, kinds[0]))
			refused = err
			continue
		}
		if stands == n || !slices.Contains(meant, stands) {
			meant = append(meant, stands)
		}
	}
	if len(meant) == 0 {
		return nil, refused
	}
	return meant, nil
}

// standsFor is the set or pair that a piece belongs or last belonged to, where that is
// the kind that is wanted; else the piece itself.
func standsFor(v inventory.View, n inventory.Number, wanted inventory.Kind, at time.Time) inventory.Number {
	if n.Kind() == wanted || wanted != inventory.KindSet && wanted != inventory.KindPair {
		return n
	}
	sets, pairs := belongings(v, n, at)
	found := sets
	if wanted == inventory.KindPair {
		found = pairs
	}
	for _, owner := range slices.Backward(found) {
		if owner != 0 {
			return owner
		}
	}
	return n
}

// belongings are the sets and pairs that a runner or holder was part of, in order of
// time; zero where it was part of none.
func belongings(v inventory.View, n inventory.Number, at time.Time) (sets, pairs []inventory.Number) {
	if runner, err := inventory.FindRunner(v, n); n.Kind() == inventory.KindRunner && err == nil {
		for _, move := range runner.Moves.Until(at) {
			sets, pairs = append(sets, move.Value.Set), append(pairs, move.Value.Pair)
		}
	}
	if holder, err := inventory.FindHolder(v, n); n.Kind() == inventory.KindHolder && err == nil {
		for _, seat := range holder.Runners.Until(at) {
			sets = append(sets, seat.Value.Set)
		}
		for _, boot := range holder.Boots.Until(at) {
			pairs = append(pairs, boot.Value.Pair)
		}
	}
	return sets, pairs
}

// sayTagDate writes a day with its month in letters, since 11/12 is read two ways. What
// is vaguer than a year's part is written short, so that it fits on a tag: "2023/24"
// for a season, "2024" for a part of a year.
func sayTagDate(when inventory.When, zone *time.Location) string {
	if when.Unknown() {
		return "NO DATE"
	}
	said := when.SayDay(zone)
	if !strings.Contains(said, " to ") {
		return strings.ToUpper(said)
	}
	first, last := when.Start.In(zone), when.End.Add(-time.Second).In(zone)
	switch {
	case first.Year() == last.Year() && first.Month() == last.Month():
		return strings.ToUpper(first.Format("Jan 2006"))
	case first.Year() == last.Year():
		return first.Format("2006")
	}
	return fmt.Sprintf("%d/%02d", first.Year(), last.Year()%100)
}

// ExplainedTag says why the symbols of a tag are as they are.
type ExplainedTag struct {
	Number   inventory.Number  `json:"number"`
	Template string            `json:"template"`
	DPI      geometry.DPI      `json:"dpi"`
	Symbols  []ExplainedSymbol `json:"symbols"`
}

// ExplainedSymbol is a symbol with the reasons for its choice.
type ExplainedSymbol struct {
	Symbology string              `json:"symbology"`
	Text      string              `json:"text"`
	Dots      geometry.Dot        `json:"dots_a_module"`
	Module    geometry.Millimetre `json:"module_mm"`
	Reasons   []string            `json:"reasons"`
}

// ExplainTags says for each symbol of the tags of a job which ones could be, and why
// this one was taken.
func (d *Desk) ExplainTags(job TagJob) ([]ExplainedTag, error) {
	work, err := d.tagWork(job)
	if err != nil {
		return nil, err
	}
	if err := work.layAll(d); err != nil {
		return nil, err
	}
	tags := []ExplainedTag{}
	for i, page := range work.inOrder() {
		tag := ExplainedTag{work.printed.Each[i].Number, work.printed.Each[i].Template, page.DPI, nil}
		for _, placed := range page.Symbols {
			tag.Symbols = append(tag.Symbols, ExplainedSymbol{
				placed.Choice.Symbol.Symbology.Title(), placed.Choice.Symbol.Text,
				placed.Choice.Dots, placed.Choice.Dots.Millimetres(page.DPI), placed.Choice.Reasons,
			})
		}
		tags = append(tags, tag)
	}
	return tags, nil
}

// inOrder are the laid-out tags in the order of their pieces.
func (w *tagWork) inOrder() []labels.Page {
	pages := make([]labels.Page, 0, len(w.printed.Each))
	next := map[*sheetGroup]int{}
	for _, group := range w.order {
		pages = append(pages, group.tags[next[group]])
		next[group]++
	}
	return pages
}

// Preview draws the tag of a piece as a picture, dot for dot as it comes out.
func (d *Desk) Preview(w io.Writer, n inventory.Number) error {
	work, err := d.tagWork(TagJob{Pieces: []inventory.Number{n}})
	if err != nil {
		return err
	}
	if err := work.layAll(d); err != nil {
		return err
	}
	pages, err := work.pages()
	if err != nil {
		return err
	}
	return png.Write(w, pages[0])
}
