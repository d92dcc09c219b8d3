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

const (
	// mendingName is what the journal was, while a mend writes it anew in its place: where
	// that is cut off, the entries are whole in there and nowhere else.
	mendingName = "journal.mending"
	// asFoundName is what it is kept as beside the one that was mended.
	asFoundName = "journal.as-found"
)

// Mended is what Mend came to.
type Mended struct {
	Report
	Was  string `json:"was,omitempty"`      // what was wrong; empty: nothing was mended
	Kept string `json:"as_found,omitempty"` // where the journal is as it was found
}

// Mend writes the journal as it was before another program rewrote it, in its place,
// where nothing else is wrong: before, and again after, both files are held against each
// other. What it was is kept beside it. Where that was cut off, it is done again.
func Mend(dir, program string) (Mended, error) {
	return mendOn(realDisk(), func(f file) file { return f }, dir, program)
}

func mendOn(on disk, through func(file) file, dir, program string) (m Mended, err error) {
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
	if err := on.keepMending(dir); err != nil {
		return m, err
	}
	if err := rewriteOwn(through, filepath.Join(dir, journalName), filepath.Join(dir, mendingName)); err != nil {
		return m, err
	}
	if m.Kept, err = on.keepAsFound(dir); err != nil {
		return m, err
	}
	m.Report = Report{Problems: []string{}}
	_, err = m.compare(dir)
	m.OK = err == nil && len(m.Problems) == 0
	return m, err
}

// entriesPath is where the journal's entries are: beside it where a mend was cut off.
func entriesPath(dir string) (path string, mending bool) {
	path = filepath.Join(dir, mendingName)
	if _, err := os.Lstat(path); err == nil {
		return path, true
	}
	return filepath.Join(dir, journalName), false
}

// checkMended refuses a journal amid a mend: what is in its place is half of each.
func checkMended(dir string) error {
	if _, mending := entriesPath(dir); mending {
		return &DamageError{journalName, "a mend of it was cut off"}
	}
	return nil
}

// keepMending copies the journal before it is written anew, unless an earlier mend did.
func (on disk) keepMending(dir string) error {
	from, mending := entriesPath(dir)
	if mending {
		return nil
	}
	journal, err := os.Open(from)
	if err != nil {
		return err
	}
	defer journal.Close()
	to := filepath.Join(dir, mendingName)
	making, err := makeFile(to)
	if err != nil {
		return err
	}
	if _, err = io.Copy(making, journal); err == nil {
		err = on.sync(making.path)
	}
	if err == nil {
		err = on.rename(making.path, to)
	}
	return errors.Join(err, making.drop(), on.sync(dir))
}

// keepAsFound gives what the journal was a name that nothing has.
func (on disk) keepAsFound(dir string) (string, error) {
	path := filepath.Join(dir, asFoundName)
	for i := 2; ; i++ {
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			break
		} else if err != nil {
			return "", err
		}
		path = filepath.Join(dir, fmt.Sprint(asFoundName, ".", i))
	}
	err := on.rename(filepath.Join(dir, mendingName), path)
	return path, errors.Join(err, on.sync(dir))
}

// rewriteOwn writes the lines of one file that are this program's own into another. The
// file itself stays, as it is how the folder is known from a copy.
func rewriteOwn(through func(file) file, path, from string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	to := through(syncedFile{f})
	size, err := copyOwn(io.NewOffsetWriter(to, 0), in)
	if err == nil {
		err = to.Truncate(size)
	}
	if err == nil {
		err = to.Sync()
	}
	return errors.Join(err, to.Close())
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
