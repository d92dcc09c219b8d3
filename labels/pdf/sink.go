package pdf

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
)

// sink passes a PDF on, keeps the first write error, which the PDF writer swallows,
// and remembers the file's end for an update.
type sink struct {
	to      io.Writer
	written int64
	err     error
	tail    []byte
}

// tailLength covers the trailer and the place of the cross-reference table.
const tailLength = 512

// newSink starts a sink.
func newSink(to io.Writer) *sink { return &sink{to: to} }

// Write passes bytes on until a write has failed.
func (s *sink) Write(b []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.to.Write(b)
	s.written += int64(n)
	if err == nil && n < len(b) {
		err = io.ErrShortWrite
	}
	s.err = err
	s.tail = append(s.tail, b[:n]...)
	if len(s.tail) > tailLength {
		s.tail = append([]byte(nil), s.tail[len(s.tail)-tailLength:]...)
	}
	return n, err
}

var (
	sizeEntry  = regexp.MustCompile(`/Size (\d+)`)
	rootEntry  = regexp.MustCompile(`/Root (\d+) 0 R`)
	startEntry = regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`)
)

// preferUnscaled appends an incremental update (ISO 32000-1, 7.5.6) with a new
// catalog that carries the viewer preference PrintScaling None (12.2).
func (s *sink) preferUnscaled() {
	if s.err != nil {
		return
	}
	size, root, start := sizeEntry.FindSubmatch(s.tail), rootEntry.FindSubmatch(s.tail), startEntry.FindSubmatch(s.tail)
	if size == nil || root == nil || start == nil {
		s.err = fmt.Errorf("the PDF's end is not as expected: %q", s.tail)
		return
	}
	var update bytes.Buffer
	object := s.written
	fmt.Fprintf(&update, "%s 0 obj\n<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>\nendobj\n", root[1])
	table := object + int64(update.Len())
	fmt.Fprintf(&update, "xref\n%s 1\n%010d 00000 n \n", root[1], object)
	fmt.Fprintf(&update, "trailer\n<< /Size %s /Root %s 0 R /Prev %s >>\nstartxref\n%d\n%%%%EOF\n", size[1], root[1], start[1], table)
	s.Write(update.Bytes())
}
