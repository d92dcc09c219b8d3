package book

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// The names of the files in a book's folder.
const (
	journalName = "journal.jsonl"
	dbName      = "book.db"
	lockName    = "lock"
	turnName    = "lock.next"
)

// file is what the journal needs of a file. Tests put one in its place that fails.
type file interface {
	io.ReaderAt
	io.WriterAt
	Truncate(size int64) error
	Sync() error
	Close() error
}

// syncedFile syncs a file's data and length, and not its times.
type syncedFile struct{ *os.File }

func (f syncedFile) Sync() error {
	for {
		if err := unix.Fdatasync(int(f.Fd())); !errors.Is(err, unix.EINTR) {
			return err
		}
	}
}

// journal is the text half of the book.
type journal struct {
	file file
	path string
	size int64
}

func openJournal(dir string, readOnly bool) (*journal, error) {
	flag := os.O_RDWR
	if readOnly {
		flag = os.O_RDONLY
	}
	path := filepath.Join(dir, journalName)
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return &journal{syncedFile{f}, path, info.Size()}, nil
}

// append writes lines at the journal's end and waits until they are on disk. After an
// error it is not known what is.
func (j *journal) append(lines []byte) error {
	if _, err := j.file.WriteAt(lines, j.size); err != nil {
		return err
	}
	if err := j.file.Sync(); err != nil {
		return err
	}
	j.size += int64(len(lines))
	return nil
}

// cut takes off what comes after a place.
func (j *journal) cut(size int64) error {
	if err := j.file.Truncate(size); err != nil {
		return err
	}
	j.size = size
	return j.file.Sync()
}

// journalLines reads lines one after the other, however the file looks.
type journalLines struct {
	source *bufio.Reader
	at     int64 // where the next line begins
}

func (j *journal) lines(from int64) *journalLines {
	return linesOf(io.NewSectionReader(j.file, from, j.size-from), from)
}

func linesOf(source io.Reader, at int64) *journalLines {
	return &journalLines{bufio.NewReaderSize(source, 1<<16), at}
}

// next gives the next line without its end. ended is false where the line has no
// end. A line longer than the longest is given cut. The error is io.EOF after the
// last line.
func (l *journalLines) next() (line []byte, ended bool, err error) {
	for {
		part, err := l.source.ReadSlice('\n')
		l.at += int64(len(part))
		if len(line) <= longestLine {
			line = append(line, part...)
		}
		switch {
		case err == nil:
			return bytes.TrimSuffix(line, []byte("\n")), true, nil
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && len(line) > 0:
			return line, false, nil
		default:
			return nil, false, err
		}
	}
}

// tail is what the journal has beyond book.db.
type tail struct {
	end  int64 // of the last whole action
	torn bool  // something unfinished comes after it
}

// scanTail finds the whole actions after a place. What follows them must look like a
// write that was cut off: a line without an end or with bytes that never came, or an
// action without its last events. Anything else is damage.
func (j *journal) scanTail(from int64) (tail, error) {
	found := tail{end: from}
	lines := j.lines(from)
	for {
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) {
			found.torn = found.end < j.size
			return found, nil
		}
		if err != nil {
			return found, err
		}
		caption, _, err := captionOf(line)
		switch {
		case !ended || err != nil && bytes.IndexByte(line, 0) >= 0:
			found.torn = true
			return found, nil
		case err != nil:
			return found, &DamageError{journalName, "a line near its end is not as it was written: " + err.Error()}
		case caption.More == 0:
			found.end = lines.at
		}
	}
}
