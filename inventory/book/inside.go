package book

import (
	"os"
	"path/filepath"
)

// InsideError says that a file was to be written where a book's own files lie.
type InsideError struct{ Path string }

func (e *InsideError) Error() string {
	return e.Path + " is among a book's own files; write it somewhere else, best on another disk"
}

// CheckOutside refuses a path for a new file that lies beside a book's own files, one
// of which it might replace.
func CheckOutside(path string) error {
	for _, name := range []string{journalName, dbName} {
		if _, err := os.Stat(filepath.Join(filepath.Dir(path), name)); err == nil {
			return &InsideError{path}
		}
	}
	return nil
}
