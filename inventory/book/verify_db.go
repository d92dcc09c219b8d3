package book

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
)

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
