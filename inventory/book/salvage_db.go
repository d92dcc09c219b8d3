package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
)

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
