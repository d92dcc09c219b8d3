package book

import (
	"bytes"
	"cmp"
	"errors"
	"io"
	"os"
	"slices"
)

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
