package book

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"steeltally/inventory"
)

// Mark is something that changes whenever the record in a folder grows. It is read
// without opening the book; empty where there is none.
func Mark(dir string) string {
	info, err := os.Stat(filepath.Join(dir, journalName))
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d-%d", info.Size(), info.ModTime().UnixNano())
}

// Added are the entries that came to the record in a folder since a mark was read, without
// opening the book; false where that can't be told.
func Added(dir, mark string) ([]inventory.Event, bool) {
	var size int64
	if _, err := fmt.Sscanf(mark, "%d-", &size); err != nil {
		return nil, false
	}
	file, err := os.Open(filepath.Join(dir, journalName))
	if err != nil {
		return nil, false
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil || info.Size() < size || info.Size()-size > longestLine || info.Size() == size && Mark(dir) != mark {
		return nil, false
	}
	var added []inventory.Event
	lines := linesOf(io.NewSectionReader(file, size, info.Size()-size), size)
	for {
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) {
			return added, true
		}
		if err != nil || !ended {
			return nil, false
		}
		e, err := decodeLine(line)
		if err != nil {
			return nil, false
		}
		added = append(added, *e)
	}
}
