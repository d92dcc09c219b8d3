package book

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
)

// foreign is what another program does to a journal that it opens and saves, or carries
// from one system to another, and by which no entry is lost.
type foreign struct {
	lines   int  // that are of an entry
	crlf    int  // of these end in CR LF
	empty   int  // lines that are of none
	marked  bool // a byte order mark comes first
	unended bool // the last line's end is gone
	begun   bool // it was being mended, and that was cut off
}

// own gives a line as this program wrote it, or nil where it did not.
func (f *foreign) own(number int, line []byte) []byte {
	if cut, found := bytes.CutPrefix(line, []byte("\uFEFF")); found && number == 1 {
		line, f.marked = cut, true
	}
	if len(bytes.TrimSpace(line)) == 0 {
		f.empty++
		return nil
	}
	f.lines++
	if cut, found := bytes.CutSuffix(line, []byte("\r")); found && checkLine(cut) == nil {
		line = cut
		f.crlf++
	}
	return line
}

// String says what was done, or nothing.
func (f *foreign) String() string {
	var said []string
	say := func(is bool, what string) {
		if is {
			said = append(said, what)
		}
	}
	say(f.crlf > 0 && f.crlf == f.lines, "every line ends in CR LF")
	say(f.crlf > 0 && f.crlf < f.lines, fmt.Sprintf("%d of its %d lines end in CR LF", f.crlf, f.lines))
	say(f.empty == 1, "an empty line was added")
	say(f.empty > 1, fmt.Sprintf("%d empty lines were added", f.empty))
	say(f.marked, "a byte order mark was put before it")
	say(f.unended, "the end of its last line was taken off")
	say(f.begun, "a mend of it was cut off")
	return strings.Join(said, ", ")
}

// noteForeign says what another program did to the journal. It can be mended where
// nothing else is wrong.
func (r *Report) noteForeign(f *foreign) {
	what := f.String()
	if what == "" {
		return
	}
	what += ": another program rewrote it"
	if r.Mendable = len(r.Problems) == 0; r.Mendable {
		what += ", and all entries are whole"
	}
	r.problem(journalName, "%s", what)
}

// Damage is the error that a report stands for; nil where all is well.
func (r *Report) Damage(dir string) error {
	switch {
	case r.OK:
		return nil
	case r.Mendable:
		return &MendableError{DamageError{journalName, strings.TrimPrefix(r.Problems[0], journalName+": ")}}
	}
	return &DamageError{dir, "its files are not as they were written"}
}

// causeOf names what another program did to the journal, where that is why a book does not
// open.
func causeOf(dir, program string, err error) error {
	var damage *DamageError
	if !errors.As(err, &damage) || damage.File != journalName {
		return err
	}
	if r, failed := VerifyHere(dir, program); failed == nil && r.Mendable {
		return r.Damage(dir)
	}
	return err
}
