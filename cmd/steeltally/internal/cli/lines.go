package cli

import (
	"bufio"
	"io"
	"strings"
)

// longestLine is more than any tag carries; what comes beyond it is let go.
const longestLine = 8192

// lines reads what a scanner types, line by line. A stuck key or a foreign barcode of
// any length makes one long line, never an end.
type lines struct {
	reader *bufio.Reader
	text   string
	err    error
}

func newLines(r io.Reader) *lines { return &lines{reader: bufio.NewReader(r)} }

// next reads a line without its end and the blanks around it; it is false at the end.
func (l *lines) next() bool {
	var line strings.Builder
	for {
		part, err := l.reader.ReadSlice('\n')
		if room := longestLine - line.Len(); room > 0 {
			line.Write(part[:min(room, len(part))])
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		l.text = strings.TrimSpace(line.String())
		if err != nil && err != io.EOF {
			l.err = err
		}
		return err == nil || line.Len() > 0 && err == io.EOF
	}
}
