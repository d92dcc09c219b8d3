package book

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

const setAsideName = "set-aside.jsonl"

// SetAside is an event that is kept beside the record, because it cannot be in it.
type SetAside struct {
	Reason string          `json:"reason"`
	Event  json.RawMessage `json:"event"`
}

// setAside keeps a checked line beside the record, once.
func (b *Book) setAside(reason string, line []byte) error {
	entry := fmt.Appendf(nil, "{\"reason\":%q,\"event\":%s}\n", reason, line)
	path := filepath.Join(b.dir, setAsideName)
	there, err := os.ReadFile(path)
	if skipMissing(err) != nil {
		return err
	}
	if bytes.Contains(there, entry) {
		return nil
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return err
	}
	_, err = f.Write(entry)
	return errors.Join(err, f.Sync(), f.Close())
}

// SetAside lists what is kept beside the record.
func (b *Book) SetAside() ([]SetAside, error) {
	f, err := os.Open(filepath.Join(b.dir, setAsideName))
	if err != nil {
		return nil, skipMissing(err)
	}
	defer f.Close()
	var list []SetAside
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 2*longestLine)
	for lines.Scan() {
		var one SetAside
		if err := json.Unmarshal(lines.Bytes(), &one); err != nil {
			return list, &DamageError{setAsideName, err.Error()}
		}
		list = append(list, one)
	}
	return list, lines.Err()
}
