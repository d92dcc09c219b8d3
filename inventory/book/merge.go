package book

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"steeltally/inventory"
)

// Merged is what a merge came to.
type Merged struct {
	Added    int `json:"added"`
	Known    int `json:"known"`     // were here already
	SetAside int `json:"set_aside"` // contradict what is here, see set-aside.jsonl

	// PutBack tells that the other book knew more of what this folder itself had written:
	// it is an older copy, and has another writer from now on.
	PutBack bool `json:"put_back,omitempty"`
}

// MergeError says why another book is refused whole. Nothing was taken from it.
type MergeError struct{ From, What, Remedy string }

func (e *MergeError) Error() string {
	return fmt.Sprintf("%s is not merged: %s; %s", e.From, e.What, e.Remedy)
}

const copyAgain = "copy it again, or rebuild it first"

// OtherClubError says that a book is not merged because it is another club's.
type OtherClubError struct{ From, Theirs, Ours string }

func (e *OtherClubError) Error() string {
	return fmt.Sprintf("%s is the book of %s, this one of %s: nothing was merged", e.From, e.Theirs, e.Ours)
}

// BegunApartError says that a book is not merged because it is no copy of this one, and gave
// the same numbers.
type BegunApartError struct {
	From string
	Both inventory.Number
}

func (e *BegunApartError) Error() string {
	return fmt.Sprintf("%s has no entry in common with this book, and both gave the number %s: nothing was merged", e.From, e.Both.Short())
}

// Other is what is to be merged into a book.
type Other struct {
	From    string // another book's folder, a backup, or a file of lines such as export writes
	Program string // who reads it
	AnyClub bool   // take it in though it is another club's, or was begun apart
}

// Merge takes in the events of another book. Books come to the same state whatever is
// merged into what, in any order, any number of times. An event whose key is another's
// here, and what its writer wrote after it, is set aside.
func (b *Book) Merge(other Other) (merged Merged, err error) {
	from := other.From
	if err := b.checkOther(from); err != nil {
		return merged, err
	}
	s, release, err := b.openOther(from, other.Program)
	if err != nil {
		return merged, err
	}
	defer func() { err = errors.Join(err, s.close(), release()) }()
	if what := s.broken(); what != "" {
		return merged, &MergeError{from, what, copyAgain}
	}
	b.mutex.Lock()
	defer b.mutex.Unlock()
	m := &merger{book: b, from: s, other: other, result: &merged, diverged: map[writerID]bool{}, aside: b.asides(), twins: map[packedKey][]inventory.Event{}}
	return merged, m.all()
}

// broken says why a file cannot be a whole one, or nothing.
func (s *salvage) broken() string {
	switch {
	case s.badLines > 0:
		return fmt.Sprintf("%d of its lines are not as they were written", s.badLines)
	case s.unended:
		return "its last line has no end"
	case len(s.found) == 0:
		return "there is no event in it"
	}
	return ""
}

// checkOther refuses a book as its own other.
func (b *Book) checkOther(from string) error {
	other, err := os.Stat(from)
	if err != nil {
		return &MergeError{from, "there is nothing", "name another book's folder, a backup, or a file that export wrote"}
	}
	own, err := os.Stat(b.dir)
	if err == nil && os.SameFile(own, other) {
		return &MergeError{from, "it is this book itself", "name the other one's folder, or its backup"}
	}
	return err
}

// openOther reads another book whole before anything is taken from it.
func (b *Book) openOther(from, program string) (*salvage, func() error, error) {
	nothing := func() error { return nil }
	isDir, err := folderOrFile(from)
	if err != nil {
		return nil, nothing, err
	}
	if isDir {
		return openOtherDir(from, program)
	}
	if !isZip(from) {
		s, err := salvageFile(from)
		return s, nothing, errors.Join(err, s.refuseHoles(from, nil))
	}
	said, err := checkBackup(from)
	if err != nil {
		return nil, nothing, err
	}
	temporary, err := makeFolder(filepath.Join(b.dir, "merging"))
	if err != nil {
		return nil, nothing, err
	}
	s, err := unpackJournal(from, temporary.path)
	release := temporary.drop
	if err == nil {
		err = s.refuseHoles(from, said.Gaps)
	}
	if err != nil {
		return nil, nothing, errors.Join(err, release())
	}
	return s, release, nil
}

func openOtherDir(from, program string) (*salvage, func() error, error) {
	if err := look(from); err != nil {
		return nil, nil, err
	}
	l, err := takeLock(from, program, true)
	if err != nil {
		return nil, nil, err
	}
	r := Report{}
	has, err := r.compare(from)
	if err != nil || len(r.Problems) > 0 || has == nil {
		refused := &MergeError{from, "it is damaged: " + strings.Join(r.Problems, "; "), copyAgain}
		return nil, nil, errors.Join(refused, err, l.release())
	}
	s := &salvage{}
	s.text, err = os.Open(filepath.Join(from, journalName))
	if err == nil {
		err = s.readText(has.Journal)
	}
	s.sort()
	if err != nil {
		return nil, nil, errors.Join(err, s.close(), l.release())
	}
	s.badLines, s.unended = 0, false // that is the end that was cut off, as verify has seen
	return s, l.release, nil
}

// refuseHoles refuses a file in which events are missing before a writer's last one,
// other than those that are known to be lost.
func (s *salvage) refuseHoles(from string, known []gap) error {
	sequences := map[writerID][]uint64{}
	for _, one := range s.found {
		key := one.at.packedKey()
		sequences[key.writerID()] = append(sequences[key.writerID()], key.sequence())
	}
	h := head{Gaps: known}
	for writer, has := range sequences {
		slices.Sort(has)
		var seen spans
		for _, sequence := range has {
			seen.add(sequence)
		}
		if !slices.Equal(seen.holes(), h.gapsOf(writer)) {
			return &MergeError{from, fmt.Sprintf("events of writer %x are missing in it", writer), copyAgain}
		}
	}
	return nil
}
