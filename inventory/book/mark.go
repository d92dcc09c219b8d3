package book

import (
	"fmt"
	"os"
	"path/filepath"
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
