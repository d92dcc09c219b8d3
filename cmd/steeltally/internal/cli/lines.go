package cli

import (
	"bufio"
	"io"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// longestLine is more than any tag carries; what comes beyond it is let go.
const longestLine = 8192

// oneEnd is how long two ends of a line lie apart at most that a scanner sends for one:
// CR LF, Enter twice, Tab and Enter. Nobody reads what is shown and presses Enter so fast.
const oneEnd = 100 * time.Millisecond

// lines reads what a scanner types, line by line. A stuck key or a foreign barcode of
// any length makes one long line, never an end.
type lines struct {
	text   string
	tabbed bool // a Tab ended the line
	rests  int  // how many ends of the line before were let go
	err    error

	reader  *bufio.Reader
	tabEnds bool             // a Tab ends a line, too
	clock   func() time.Time // of a terminal; nil where an empty line is always meant
	before  byte             // what ended the line before
	typed   chan typedLine   // of a terminal
	begun   bool             // a line came before
}

// typedLine is a line with how long it was waited for.
type typedLine struct {
	text   string
	end    byte // 0: the input ended with it
	more   bool
	err    error
	waited time.Duration
}

// newLines reads lines; with a clock from a terminal, where it tells when each came.
func newLines(r io.Reader, clock func() time.Time) *lines {
	return &lines{reader: bufio.NewReader(r), clock: clock}
}

// next reads a line without its end and the blanks around it; it is false at the end.
func (l *lines) next() bool {
	line := l.take()
	for l.rests = 0; line.more && l.sameEnd(line); l.rests++ {
		line = l.take()
	}
	l.text, l.tabbed, l.begun = line.text, line.end == '\t', true
	if line.err != nil && line.err != io.EOF {
		l.err = line.err
	}
	return line.more
}

// sameEnd tells whether an empty line is the rest of the end of the line before.
func (l *lines) sameEnd(line typedLine) bool {
	return l.clock != nil && l.begun && line.text == "" && line.waited <= oneEnd
}

// mostAhead is how many lines may come while one is acted on; those beyond wait unread.
const mostAhead = 1000

// take is the next line. At a terminal another reads on meanwhile, so that it is known how
// long after the line before it came, and not only when it was looked at.
func (l *lines) take() typedLine {
	if l.clock == nil {
		return l.read()
	}
	if l.typed == nil {
		l.typed = make(chan typedLine, mostAhead)
		go l.readOn()
	}
	return <-l.typed
}

func (l *lines) readOn() {
	defer close(l.typed)
	for more := true; more; {
		since := l.clock()
		line := l.read()
		line.waited = l.clock().Sub(since)
		more = line.more
		l.typed <- line
	}
}

// read reads up to the end of a line: LF, CR, CR LF, or a Tab. Where no clock tells ends
// apart, what follows a Tab or a CR at once belongs to it.
func (l *lines) read() typedLine {
	var line strings.Builder
	for {
		c, err := l.reader.ReadByte()
		switch {
		case err != nil:
			return typedLine{text: strings.TrimSpace(line.String()), more: line.Len() > 0 && err == io.EOF, err: err}
		case l.restOfEnd(c) && line.Len() == 0:
			l.before = c
		case c == '\n' || c == '\r' || c == '\t' && l.tabEnds:
			l.before = c
			return typedLine{text: strings.TrimSpace(line.String()), end: c, more: true}
		case line.Len() < longestLine:
			line.WriteByte(c)
		}
	}
}

func (l *lines) restOfEnd(c byte) bool {
	return l.clock == nil && (c == '\n' && (l.before == '\r' || l.before == '\t') || c == '\r' && l.before == '\t')
}

// textsFrom adds the lines of a file to what was given as arguments; "-" is the
// standard input.
func (a *app) textsFrom(file string, args []string) ([]string, error) {
	texts := append([]string(nil), args...)
	if file == "" {
		return texts, nil
	}
	lines, err := a.linesFrom(file)
	a.heard = append(a.heard, lines...)
	return append(texts, lines...), err
}

func (a *app) linesFrom(file string) ([]string, error) {
	from, name, err := a.open(file)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	return desk.ScanLines(from, name)
}
