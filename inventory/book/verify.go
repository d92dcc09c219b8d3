package book

import (
	"errors"
	"fmt"
	"os"
)

// Report is what verify found. It repairs nothing.
type Report struct {
	OK       bool     `json:"ok"`
	Events   uint64   `json:"events"`   // in the journal, those that are as they were written
	Problems []string `json:"problems"` // what is damaged; empty where all is well
	Notes    []string `json:"notes,omitempty"`
	Mendable bool     `json:"mendable,omitempty"` // another program rewrote the journal, and that is all
	Back     *Setback `json:"put_back,omitempty"` // what the folder lacks that was put back to an older copy
}

// mostProblems keeps a file of junk from filling the screen.
const mostProblems = 50

func (r *Report) problem(file, what string, values ...any) {
	if len(r.Problems) < mostProblems {
		r.Problems = append(r.Problems, file+": "+fmt.Sprintf(what, values...))
	}
}

// VerifyHere reads both files of a book whole, without trusting either, and holds them
// against each other. It maps nothing into memory and never runs bbolt, so no damage
// makes it crash or hang. The error is not nil only where it could not look.
func VerifyHere(dir, program string) (Report, error) {
	r := Report{Problems: []string{}}
	if err := look(dir); err != nil && !r.isDamage(err) {
		return r, err
	}
	l, err := takeLock(dir, program, true)
	if err != nil {
		return r, err
	}
	_, err = r.compare(dir)
	r.OK = err == nil && len(r.Problems) == 0
	return r, errors.Join(err, l.release())
}

// isDamage notes damage as a problem.
func (r *Report) isDamage(err error) bool {
	var damage *DamageError
	found := errors.As(err, &damage)
	if found {
		r.problem(damage.File, "%s", damage.What)
	}
	return found
}

// compare reads book.db first: it says up to where the journal must have the same. It
// gives what book.db says of itself, or nil.
func (r *Report) compare(dir string) (*head, error) {
	db, err := surveyDB(dir, r)
	if err != nil {
		return nil, skipMissing(err)
	}
	text, err := surveyJournal(dir, db.head, r)
	if err != nil {
		return db.head, skipMissing(err)
	}
	r.Events = text.events
	if text.met {
		r.Events = text.whole
	}
	return db.head, nil
}

func skipMissing(err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}
