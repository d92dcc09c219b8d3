package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
)

// intact is a line that was found as it was written, and where. A million of them
// take fifty megabytes; the lines themselves stay on the disk.
type intact struct {
	at     order
	sum    uint32
	length uint32
	offset int64
	start  uint32 // of its action, as a place in a list
	inDB   bool
	more   bool // an event of the same action follows
}

// salvage gathers what is intact in files that may be damaged anywhere.
type salvage struct {
	text, db *os.File // either can be nil
	found    []intact
	known    int // so many of them are sorted and in book.db
	badLines int
	unended  bool // the last line of the text has no end
	common   bool // a line is in both
}

func (s *salvage) close() error {
	var errs []error
	for _, f := range []*os.File{s.text, s.db} {
		if f != nil {
			errs = append(errs, f.Close())
		}
	}
	return errors.Join(errs...)
}

// salvageDir looks at both files of a book.
func salvageDir(dir string) (s *salvage, err error) {
	s = &salvage{}
	path, _ := entriesPath(dir)
	if s.text, err = openIfThere(path); err != nil {
		return s, err
	}
	if s.db, err = openIfThere(filepath.Join(dir, dbName)); err != nil {
		return s, err
	}
	if s.db != nil {
		if err := s.readDB(); err != nil {
			return s, err
		}
		s.sort()
		s.known = len(s.found)
	}
	if s.text != nil {
		err = s.readText(trustedJoint(dir))
	}
	s.sort()
	return s, err
}

// salvageFile looks at one file of lines.
func salvageFile(path string) (s *salvage, err error) {
	s = &salvage{}
	if s.text, err = os.Open(path); err != nil {
		return s, err
	}
	err = s.readText(math.MaxInt64)
	s.sort()
	return s, err
}

// trustedJoint is the place in the journal up to which a whole book.db goes; where
// book.db is not whole, everything counts.
func trustedJoint(dir string) int64 {
	var r Report
	db, err := surveyDB(dir, &r)
	if err != nil || db.head == nil || len(r.Problems) > 0 {
		return math.MaxInt64
	}
	return db.head.Journal
}

func openIfThere(path string) (*os.File, error) {
	f, err := os.Open(path)
	return f, skipMissing(err)
}

// readText finds the intact lines of a text. Where book.db is whole and says that it
// goes up to some place of the journal, an action after it that is not whole never
// counted and is left out.
func (s *salvage) readText(upTo int64) error {
	if s.db == nil {
		s.expect(s.text)
	}
	whole := len(s.found)
	lines := linesOf(s.text, 0)
	var f foreign
	for number := 1; ; number++ {
		start := lines.at
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) {
			s.found = slices.Delete(s.found, whole, len(s.found))
			return nil
		}
		if err != nil {
			return err
		}
		s.unended = !ended
		found := line
		if line = f.own(number, found); line == nil {
			continue
		}
		start += int64(bytes.Index(found, line))
		c, at, err := captionOf(line)
		if err != nil {
			s.badLines++
			s.readPieces(line, start)
			continue
		}
		s.note(intact{at: at, sum: lineSum(line), length: uint32(len(line)), offset: start, more: c.More > 0})
		if (c.More == 0 && ended) || start < upTo {
			whole = len(s.found)
		}
	}
}

// expect makes room for what a file may have.
func (s *salvage) expect(f *os.File) {
	const usual = 350 // bytes of an event
	if info, err := f.Stat(); err == nil {
		s.found = slices.Grow(s.found, int(info.Size()/usual))
	}
}

// note notes a line, unless book.db has the same.
func (s *salvage) note(one intact) {
	i, found := slices.BinarySearchFunc(s.found[:s.known], one, compareIntact)
	if found && s.found[i].sum == one.sum {
		s.common = true
		return
	}
	s.found = append(s.found, one)
}

// lineSum is the checksum that a checked line carries.
func lineSum(line []byte) uint32 { return checksum(line[:len(line)-checksumTail]) }

// readPieces finds events inside of a damaged line: two of them, where only the line's
// end between them was lost. An event goes from the last beginning before an end.
func (s *salvage) readPieces(line []byte, start int64) {
	const begin = `{"writer":"`
	for from := 0; ; {
		step := bytes.Index(line[from:], []byte(checksumName))
		if step < 0 || from+step+checksumTail > len(line) {
			return
		}
		end := from + step + checksumTail
		if at := bytes.LastIndex(line[from:end], []byte(begin)); at >= 0 {
			at += from
			if c, place, err := captionOf(line[at:end]); err == nil {
				s.note(intact{at: place, sum: lineSum(line[at:end]), length: uint32(end - at), offset: start + int64(at), more: c.More > 0})
			}
		}
		from = end - checksumTail + len(checksumName)
	}
}

// line reads a line again.
func (s *salvage) line(i intact) ([]byte, error) {
	data := make([]byte, i.length)
	if !i.inDB {
		_, err := s.text.ReadAt(data, i.offset)
		return data, err
	}
	if _, err := s.db.ReadAt(data, i.offset); err != nil {
		return nil, err
	}
	return unslim(data[:orderBytes], data[orderBytes:]), nil
}

// sort puts what was found in fold order, each line once.
func (s *salvage) sort() {
	slices.SortFunc(s.found, compareIntact)
	s.found = slices.CompactFunc(s.found, func(a, b intact) bool { return a.at == b.at && a.sum == b.sum })
}

func compareIntact(a, b intact) int { return bytes.Compare(a.at[:], b.at[:]) }

// readDB finds the events anywhere in a bbolt file, used or not, whatever the pages
// around them say: an entry of a leaf is known by the length of its key.
func (s *salvage) readDB() error {
	const chunk = 1 << 20
	s.expect(s.db)
	mark := binary.LittleEndian.AppendUint32(nil, orderBytes)
	window := make([]byte, chunk+pageElementBytes)
	for base := int64(0); ; base += chunk {
		n, err := s.db.ReadAt(window, base)
		if err != nil && !errors.Is(err, io.EOF) {
			return err
		}
		for at := pageElementBytes / 2; at < n; at++ {
			step := bytes.Index(window[at:n], mark)
			if step < 0 {
				break
			}
			at += step
			if element := at - pageElementBytes/2; element < chunk && element+pageElementBytes <= n {
				s.readElement(window[element:element+pageElementBytes], base+int64(element))
			}
		}
		if n < len(window) {
			return nil
		}
	}
}

// readElement takes what may be the entry of an event.
func (s *salvage) readElement(element []byte, at int64) {
	flags, start := binary.LittleEndian.Uint32(element), binary.LittleEndian.Uint32(element[4:])
	length := binary.LittleEndian.Uint32(element[12:])
	if flags != 0 || length == 0 || length > longestLine {
		return
	}
	found := intact{offset: at + int64(start), length: orderBytes + length, inDB: true}
	line, err := s.line(found)
	if err != nil {
		return
	}
	c, place, err := captionOf(line)
	if err != nil || place != found.keyIn(s) {
		return
	}
	found.at, found.sum, found.more = place, lineSum(line), c.More > 0
	s.found = append(s.found, found)
}

// keyIn reads the key that an entry of book.db has.
func (i intact) keyIn(s *salvage) (at order) {
	if _, err := s.db.ReadAt(at[:], i.offset); err != nil {
		return order{}
	}
	return at
}
