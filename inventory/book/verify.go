package book

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
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

// dbSurvey is what was found in book.db, entry by entry.
type dbSurvey struct {
	head   *head // nil where it is lost
	events uint64
	lines  tally
	others tally
	last   order
	report *Report
}

// surveyDB reads the whole of book.db.
func surveyDB(dir string, r *Report) (*dbSurvey, error) {
	s := &dbSurvey{report: r}
	f, err := os.Open(filepath.Join(dir, dbName))
	if err != nil {
		return s, skipMissing(err)
	}
	defer f.Close()
	pages, err := readMetas(f)
	if err != nil {
		if r.isDamage(err) {
			err = nil
		}
		return s, err
	}
	if !pages.both {
		r.problem(dbName, "one of its two first pages is not as it was written")
	}
	err = walk(f, pages.newest, s.take)
	var systems *os.PathError
	if errors.As(err, &systems) {
		return s, err
	}
	if err != nil {
		r.problem(dbName, "%v", err)
	}
	s.compare(err == nil)
	return s, nil
}

// take looks at one entry. What is wrong with it is no reason to stop.
func (s *dbSurvey) take(bucket string, key, value []byte) error {
	switch {
	case bucket == eventsBucket:
		s.takeEvent(key, value)
		return nil
	case !slices.Contains(bucketNames(), bucket):
		s.report.problem(dbName, "it has a part %q that no book has", bucket)
		return nil
	}
	inside, ok := unseal(key, value)
	if !ok {
		s.report.problem(dbName, "the entry %q in %s is not as it was written", key, bucket)
	}
	if bucket != bookBucket {
		s.others += fingerprintOf(bucket, key, value)
		return nil
	}
	h, err := decodeHead(inside)
	if err != nil {
		s.report.problem(dbName, "%v", err)
	} else if ok {
		s.head = &h
	}
	return nil
}

func (s *dbSurvey) takeEvent(key, kept []byte) {
	line := unslim(key, kept)
	_, at, err := captionOf(line)
	switch {
	case err != nil:
		s.report.problem(dbName, "the event in place %x is not as it was written: %v", key, err)
	case !bytes.Equal(at[:], key):
		s.report.problem(dbName, "event %v is not in its place", at.packedKey().key())
	}
	s.events++
	s.lines += fingerprint(line)
	s.last = at
}

// compare holds what was found against what the file says of itself.
func (s *dbSurvey) compare(whole bool) {
	switch {
	case s.head == nil:
		s.report.problem(dbName, "it does not say whose book it is")
	case !whole: // said already
	case s.head.Events != s.events || s.head.Lines != s.lines || s.head.Last != s.last:
		s.report.problem(dbName, "it has %d events that are not the %d that were written", s.events, s.head.Events)
	case s.head.Others != s.others:
		s.report.problem(dbName, "a state or an index in it is not the one that was written last")
	}
}

// journalSurvey is what was found in the journal, line by line.
type journalSurvey struct {
	head    *head // of book.db; nil where it is lost
	events  uint64
	high    uint64 // the latest logical time so far
	whole   uint64 // those in whole actions
	lines   tally
	seen    map[writerID]*spans
	blind   bool  // a line was lost, so that gaps say nothing new
	met     bool  // the place was passed that book.db goes up to
	open    bool  // amid an action
	at      int64 // up to where it was read, without what is foreign
	foreign foreign
	report  *Report
}

// surveyJournal reads the whole journal.
func surveyJournal(dir string, h *head, r *Report) (*journalSurvey, error) {
	s := &journalSurvey{head: h, seen: map[writerID]*spans{}, report: r}
	path, mending := entriesPath(dir)
	s.foreign.begun = mending
	f, err := os.Open(path)
	if err != nil {
		return s, err
	}
	defer f.Close()
	lines := linesOf(f, 0)
	for number := 1; ; number++ {
		start := lines.at
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) {
			s.end()
			return s, nil
		}
		if err != nil {
			return s, err
		}
		if !s.takeOwn(number, line, ended, lines.at-start) {
			s.end()
			return s, nil
		}
	}
}

// takeOwn is take without what another program added to a line of some bytes.
func (s *journalSurvey) takeOwn(number int, whole []byte, ended bool, bytes int64) bool {
	line := s.foreign.own(number, whole)
	if line == nil {
		return true
	}
	s.at += bytes - int64(len(whole)-len(line))
	if !ended && s.head != nil && s.at+1 == s.head.Journal && checkLine(line) == nil {
		ended, s.foreign.unended = true, true
		s.at++
	}
	if !s.take(number, line, ended) {
		return false
	}
	s.meet(s.at)
	return true
}

// take looks at one line; false where a cut-off end begins.
func (s *journalSurvey) take(number int, line []byte, ended bool) bool {
	c, at, err := captionOf(line)
	if err != nil || !ended {
		if s.met && (!ended || bytes.IndexByte(line, 0) >= 0) {
			s.open = true
			return false
		}
		s.report.problem(journalName, "line %d is not as it was written: %v", number, cmp.Or(unended(ended), err))
		s.blind = true
		return true
	}
	writer := at.packedKey().writerID()
	if s.seen[writer] == nil {
		s.seen[writer] = &spans{}
	}
	if !s.seen[writer].add(c.Sequence) {
		s.report.problem(journalName, "line %d, event %v, is there twice", number, at.packedKey().key())
	}
	if refused := checkTime(at, s.high); refused != nil {
		s.report.problem(journalName, "line %d, event %v, was not written by this program: %v; rebuild sets it aside", number, at.packedKey().key(), refused)
	}
	s.high = max(s.high, at.logical())
	s.events++
	s.lines += fingerprint(line)
	if s.open = c.More > 0; !s.open {
		s.whole = s.events
	}
	return true
}

func unended(ended bool) error {
	if ended {
		return nil
	}
	return lineError("it has no end")
}

// meet compares with book.db at the place that it goes up to.
func (s *journalSurvey) meet(at int64) {
	if s.head == nil || at != s.head.Journal {
		return
	}
	s.met, s.open, s.whole = true, false, s.events
	if s.events != s.head.Events || s.lines != s.head.Lines {
		s.report.problem(journalName, "its %d events up to here are not the %d that %s has", s.events, s.head.Events, dbName)
	}
}

// end says how the journal ends.
func (s *journalSurvey) end() {
	switch {
	case s.head == nil:
	case !s.met:
		s.report.problem(journalName, "it lacks the place up to which %s has it: its end is missing, or a line is lost", dbName)
	case s.open:
		s.report.Notes = append(s.report.Notes, "an action at the journal's end was cut off before it counted; the next opening for writing takes it off")
	}
	for writer, seen := range s.seen {
		if s.head != nil && !s.blind && !slices.Equal(seen.holes(), s.head.gapsOf(writer)) {
			s.report.problem(journalName, "events of writer %x are missing that are not known to be lost", writer)
		}
	}
	if s.met && s.whole > s.head.Events {
		s.report.Notes = append(s.report.Notes, "the journal has events that "+dbName+" takes in at the next opening")
	}
	s.report.noteForeign(&s.foreign)
}

// Verify runs VerifyHere in a process of its own, so that not even a failing disk can
// take the caller down; the context limits its time. command is a program with its
// arguments that runs VerifyHere and writes the Report as JSON on its standard output.
func Verify(ctx context.Context, command string, arguments ...string) (Report, error) {
	var out, said bytes.Buffer
	child := exec.CommandContext(ctx, command, arguments...)
	child.Stdout, child.Stderr = &out, &said
	runErr := child.Run()
	var r Report
	if err := json.Unmarshal(out.Bytes(), &r); err == nil {
		return r, nil
	}
	if ctx.Err() != nil {
		return r, errors.Join(errors.New("verify did not come to an end in time: the disk may be failing; copy the folder to another one first"), ctx.Err())
	}
	return r, fmt.Errorf("verify ended without a report: %s: %w", bytes.TrimSpace(said.Bytes()), runErr)
}
