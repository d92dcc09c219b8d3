package book

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// asFoundName is what the journal is kept as beside the one that was mended.
const asFoundName = "journal.as-found"

// Mended is what Mend came to.
type Mended struct {
	Report
	Was  string `json:"was,omitempty"`      // what was wrong; empty: nothing was mended
	Kept string `json:"as_found,omitempty"` // where the journal is as it was found
}

// Mend writes the journal as it was before another program rewrote it, in its place,
// where nothing else is wrong: before, and again after, both files are held against each
// other. What it was is kept beside it.
func Mend(dir, program string) (m Mended, err error) {
	m.Problems = []string{}
	if err := look(dir); err != nil && !m.isDamage(err) {
		return m, err
	}
	l, err := takeLock(dir, program, false)
	if err != nil {
		return m, err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	if _, err := m.compare(dir); err != nil || !m.Mendable {
		m.OK = err == nil && len(m.Problems) == 0
		return m, err
	}
	m.Was = m.Problems[0]
	if m.Kept, err = keepAsFound(dir); err != nil {
		return m, err
	}
	if err := rewriteOwn(filepath.Join(dir, journalName), m.Kept); err != nil {
		return m, err
	}
	m.Report = Report{Problems: []string{}}
	_, err = m.compare(dir)
	m.OK = err == nil && len(m.Problems) == 0
	return m, err
}

// keepAsFound copies the journal to a name that nothing has.
func keepAsFound(dir string) (string, error) {
	for i := 1; ; i++ {
		name := asFoundName
		if i > 1 {
			name = fmt.Sprint(name, ".", i)
		}
		f, err := os.Open(filepath.Join(dir, journalName))
		if err != nil {
			return "", err
		}
		err = errors.Join(placeFile(dir, name, f), f.Close())
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		return filepath.Join(dir, name), errors.Join(err, syncPath(dir))
	}
}

// rewriteOwn writes the lines of one file that are this program's own into another. The
// file itself stays, as it is how the folder is known from a copy.
func rewriteOwn(path, from string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	to, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	size, err := copyOwn(to, in)
	if err == nil {
		err = to.Truncate(size)
	}
	return errors.Join(err, to.Sync(), to.Close())
}

func copyOwn(to io.Writer, from io.Reader) (size int64, err error) {
	out := bufio.NewWriterSize(to, 1<<16)
	lines := linesOf(from, 0)
	var f foreign
	for number := 1; ; number++ {
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) {
			return size, out.Flush()
		}
		if err != nil {
			return size, err
		}
		if line = f.own(number, line); line == nil {
			continue
		}
		if ended || checkLine(line) == nil {
			line = append(line, '\n') // else it was cut off before it counted, and stays so
		}
		n, err := out.Write(line)
		if size += int64(n); err != nil {
			return size, err
		}
	}
}
