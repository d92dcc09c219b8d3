package desk

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/labels/report"
)

// warning stands wherever the number of something is shown that nobody may skate on.
const warning = "DO NOT SKATE"

var (
	shownNumber = regexp.MustCompile(`\b(?:[RHPSTB][0-9]-[0-9]{1,6}-[0-9]{2}|[1-6][0-9]{9})\b`)
	commandLine = regexp.MustCompile(`\bsteeltally [a-z].*`)
	textOfPage  = regexp.MustCompile(`([^<>]*)>([^<>]+)`)
)

// ShowsPiece tells whether there is the number of a piece in a text.
func ShowsPiece(text string) bool { return shownNumber.MatchString(text) }

// numbersIn are those that a text shows; one in a command line is only spelled.
func numbersIn(text string) []string {
	return shownNumber.FindAllString(commandLine.ReplaceAllString(text, ""), -1)
}

// Unsafe tells of texts, one after the other, whether they show the number of something
// that nobody may skate on. Where that can't be read, they do, and Err says why.
type Unsafe struct {
	Err    error
	desk   *Desk
	mark   string // of the record that it was read from
	known  map[string]bool
	places []string // at which something unsafe lies, once a trunk or bin was asked about
	looked bool     // for those
}

// Unsafe is what was looked up of the record as it stands, and knows of no more yet: lines
// are said one by one, and for a trunk or bin all pieces are looked at.
func (d *Desk) Unsafe() *Unsafe {
	if mark := Mark(d.options); d.unsafe == nil || d.unsafe.mark != mark {
		d.unsafe = &Unsafe{desk: d, mark: mark, known: map[string]bool{}}
	}
	return d.unsafe
}

// In tells it of a text.
func (u *Unsafe) In(text string) bool {
	unsafe := false
	for _, shown := range numbersIn(text) {
		if _, looked := u.known[shown]; !looked {
			u.known[shown] = u.look(shown)
		}
		unsafe = unsafe || u.known[shown]
	}
	return unsafe
}

func (u *Unsafe) look(shown string) (unsafe bool) {
	n, err := inventory.ParseNumber(shown)
	if err != nil {
		return false
	}
	err = u.desk.ask(func(v inventory.View, at time.Time) error {
		container, err := inventory.FindContainer(v, n)
		if err != nil {
			unsafe = !standing.Skateable(v, at, n)
			return nil
		}
		if !u.looked {
			u.places, u.looked = standing.UnsafePlaces(v, at), true
		}
		unsafe = slices.ContainsFunc(u.places, func(name string) bool { return inventory.SameName(name, container.Name) })
		return nil
	})
	u.Err = cmp.Or(u.Err, err)
	return unsafe || err != nil
}

// Warned adds DO NOT SKATE to each line that shows such a number and does not say it.
func (d *Desk) Warned(text string) string { return d.warn(text, "  ") }

// warn adds it behind what parts it from the line.
func (d *Desk) warn(text, parted string) string {
	unsafe := d.Unsafe()
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if !strings.Contains(line, warning) && unsafe.In(line) {
			lines[i] += parted + warning
		}
	}
	return strings.Join(lines, "\n")
}

// WarnedPage does the same for each text of a page, but for what tells the past.
func (d *Desk) WarnedPage(html string) string {
	unsafe := d.Unsafe()
	return textOfPage.ReplaceAllStringFunc(html, func(found string) string {
		tag, text, _ := strings.Cut(found, ">")
		if strings.Contains(tag, `class="past"`) || strings.Contains(text, warning) || !unsafe.In(text) {
			return found
		}
		return found + ` <strong class="unsafe">` + warning + "</strong>"
	})
}

// print puts a report on paper, with DO NOT SKATE in each cell that shows such a number.
func (d *Desk) print(sheet Sheet, r report.Report) (Written, error) {
	for _, table := range r.Tables {
		for _, row := range table.Rows {
			for i, cell := range row {
				row[i] = d.warn(cell, "\n") // never broken over two lines
			}
		}
	}
	for i := range r.Tables {
		r.Tables[i].Title = d.Warned(r.Tables[i].Title)
	}
	return sheet.print(r)
}
