package book

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
)

const setAsideName = "set-aside.jsonl"

// SetAside is an event that is kept beside the record, because it cannot be in it.
type SetAside struct {
	Reason  string          `json:"reason"`
	Dropped bool            `json:"dropped,omitempty"` // a person put it away
	Event   json.RawMessage `json:"event"`
}

// writeAside writes one entry, its event byte for byte.
func writeAside(w *bytes.Buffer, one SetAside, line []byte) error {
	one.Event = json.RawMessage("{}")
	text, err := json.Marshal(one)
	if err != nil {
		return err
	}
	w.Write(bytes.TrimSuffix(text, []byte("{}}")))
	w.Write(line)
	w.WriteString("}\n")
	return nil
}

// An entry's event comes last in its line; this is before it, and is nowhere else in
// it, because quotation marks in a text are escaped.
const eventMember = `,"event":`

// asides adds to what is kept beside the record, each line once.
type asides struct {
	path  string
	there map[tally]bool // what is there, and whether a person put it away; nil before it is read
	whole int64          // up to here the file's lines are whole
	fresh bytes.Buffer
}

func (b *Book) asides() *asides { return &asides{path: filepath.Join(b.dir, setAsideName)} }

// add keeps a checked line beside the record.
func (a *asides) add(reason string, line []byte) error {
	if err := a.read(); err != nil {
		return err
	}
	print := fingerprint(line)
	if _, is := a.there[print]; !is {
		a.there[print] = false
		if err := writeAside(&a.fresh, SetAside{Reason: reason}, line); err != nil {
			return err
		}
	}
	if a.fresh.Len() > longestLine {
		return a.write()
	}
	return nil
}

// keep is add for what a person may have put away before; false where one did.
func (a *asides) keep(reason string, line []byte) (waits bool, err error) {
	if err := a.read(); err != nil || a.there[fingerprint(line)] {
		return false, err
	}
	return true, a.add(reason, line)
}

func (a *asides) read() error {
	if a.there != nil {
		return nil
	}
	a.there = map[tally]bool{}
	return eachAside(a.path, func(line []byte, end int64) error {
		var said SetAside
		if err := json.Unmarshal(line, &said); err != nil {
			return &DamageError{setAsideName, err.Error()}
		}
		a.there[fingerprint(eventIn(line))] = said.Dropped
		a.whole = end
		return nil
	})
}

// write writes what was added; what a crash left of a line is replaced.
func (a *asides) write() error {
	if a.fresh.Len() == 0 {
		return nil
	}
	f, err := os.OpenFile(a.path, os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(a.fresh.Bytes(), a.whole)
	a.whole += int64(a.fresh.Len())
	a.fresh.Reset()
	return errors.Join(err, f.Truncate(a.whole), f.Sync(), f.Close())
}

// eachAside calls visit with each whole line and where it ends.
func eachAside(path string, visit func(line []byte, end int64) error) error {
	f, err := os.Open(path)
	if err != nil {
		return skipMissing(err)
	}
	defer f.Close()
	lines := linesOf(f, 0)
	for {
		line, ended, err := lines.next()
		if errors.Is(err, io.EOF) || err == nil && !ended {
			return nil
		}
		if err == nil {
			err = visit(line, lines.at)
		}
		if err != nil {
			return err
		}
	}
}

// eventIn is the event's line in a line of what is set aside.
func eventIn(line []byte) []byte {
	_, rest, _ := bytes.Cut(line, []byte(eventMember))
	return bytes.TrimSuffix(rest, []byte("}"))
}

// SetAside lists what is kept beside the record.
func (b *Book) SetAside() ([]SetAside, error) {
	var list []SetAside
	err := eachAside(filepath.Join(b.dir, setAsideName), func(line []byte, _ int64) error {
		var one SetAside
		if err := json.Unmarshal(line, &one); err != nil {
			return &DamageError{setAsideName, err.Error()}
		}
		list = append(list, one)
		return nil
	})
	return list, err
}
