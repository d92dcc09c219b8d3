package station

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"regexp"
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// tagsOf sends the tags of steel that came off for good to the printer. Without one they
// wait on the screen.
func (s *Station) tagsOf(d *desk.Desk, removed []inventory.Number, said told) told {
	if len(removed) == 0 || said.Tone != toneDone {
		return said
	}
	if s.options.Printer == "" {
		said.Lines = append(said.Lines, desk.SayCount(len(removed), "tag")+" to tie on: print below")
		return said
	}
	printed, err := d.PrintAfter(desk.TagJob{Pieces: removed, Printer: s.options.Printer})
	if err != nil {
		return wrong(said, err)
	}
	said.Lines = append(said.Lines, sent(printed))
	said.Notes = append(said.Notes, printed.Notices...)
	return said
}

// rowNumber is the number of a row, and no piece's.
var rowNumber = regexp.MustCompile(`^[0-9]{1,3}$`)

// rowOf is a print as it is known again in a list that has grown.
func rowOf(j desk.PrintJob) string {
	return strings.Join([]string{j.When, j.Template, j.Printer, j.Job, numbers(j.Pieces)}, " ")
}

func sent(printed desk.Printed) string {
	return desk.SayCount(printed.Tags, "tag") + " sent to " + printed.Printer
}

// tagsLine acts on a line on the screen of tags: the number of a row prints it again, o
// prints what waits for a tag.
func (s *Station) tagsLine(d *desk.Desk, out *answer, in asked) (told, bool, error) {
	list, err := d.PrintList()
	if err != nil {
		return told{}, true, err
	}
	job := desk.TagJob{Printer: s.options.Printer, Again: true}
	switch {
	case in.Line == "o" && len(list.Owed) > 0:
		for _, owed := range list.Owed {
			job.Pieces = append(job.Pieces, owed.Number)
		}
	case rowNumber.MatchString(in.Line):
		meant, err := in.row(in.Line)
		at := slices.IndexFunc(list.Jobs, func(j desk.PrintJob) bool { return rowOf(j) == meant })
		if err == nil && at < 0 {
			err = inventory.Refuse(fmt.Sprintf("row %s is not in the list any more", in.Line), "look at the list, then choose")
		}
		if err != nil {
			return told{}, true, err
		}
		job.Pieces, job.Template = list.Jobs[at].Pieces, list.Jobs[at].Template
	default:
		return told{}, false, nil
	}
	if s.options.Printer == "" {
		return told{Tone: toneLook, Lines: []string{"no printer was named: use the button PDF of that row"}}, true, nil
	}
	printed, err := d.PrintCounted(job)
	if err != nil {
		return told{}, true, err
	}
	out.Recorded = true
	return told{Tone: toneDone, Lines: []string{sent(printed)}, Notes: printed.Notices}, true, nil
}

// tags gives the tags of pieces as a PDF, to be printed at actual size.
func (s *Station) tags(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostLine)
	pieces, err := desk.ScannedAll(strings.Fields(r.PostFormValue("pieces")))
	if err != nil || len(pieces) == 0 {
		http.Error(w, "no pieces were named", http.StatusBadRequest)
		return
	}
	var file bytes.Buffer
	err = s.book.use("", func(d *desk.Desk) error {
		_, err := d.PrintCounted(desk.TagJob{Pieces: pieces, Template: r.PostFormValue("template"), To: &file, Again: true})
		return err
	})
	if err != nil {
		fail(w, err)
		return
	}
	s.bell.ring()
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", `inline; filename="tags.pdf"`)
	w.Write(file.Bytes())
}

// preview draws a tag as it comes out.
func (s *Station) preview(w http.ResponseWriter, r *http.Request) {
	n, err := inventory.ParseNumber(r.PathValue("number"))
	var picture bytes.Buffer
	if err == nil {
		err = s.book.use("", func(d *desk.Desk) error { return d.Preview(&picture, n) })
	}
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "image/png")
	w.Write(picture.Bytes())
}

// fail says in plain words why nothing comes.
func fail(w http.ResponseWriter, err error) {
	code := http.StatusInternalServerError
	switch desk.FailureOf(err) {
	case desk.Mistyped, desk.Refused:
		code = http.StatusNotFound
	}
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		code = http.StatusRequestEntityTooLarge
	}
	text := err.Error()
	if hint := hintOf(err); hint != "" {
		text += "; " + hint
	}
	http.Error(w, text, code)
}
