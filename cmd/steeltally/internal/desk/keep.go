package desk

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// Rebuilt is what came back of a book, and what to know of it.
type Rebuilt struct {
	book.Rebuilt
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// Backup writes the book to one file, checked before it takes an older one's place, and
// tells how many entries are in it.
func (d *Desk) Backup(path string) (uint64, error) {
	if path == "-" {
		return 0, inventory.RefuseValue("a backup is read again after it was written, and the standard output can't be", "name a file")
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return 0, inventory.RefuseValue(fmt.Sprintf("%s is a folder", path), "name the file in it, such as "+filepath.Join(path, "book.zip"))
	}
	folder := filepath.Dir(path)
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return 0, inventory.RefuseValue(fmt.Sprintf("there is no folder %s", folder), "make it first, or name another")
	}
	events, err := d.book.Backup(path)
	if err == nil {
		d.options.stands("the backup is made and was read again: %s", path)
	}
	return events, err
}

// Rebuild makes a book of what is intact of another: its folder, a backup, or a file
// that export wrote. It goes into the folder of the options.
func Rebuild(o Options, from string) (Rebuilt, error) {
	into := o.Book
	rebuilt, err := book.Rebuild(into, from, Program)
	if err != nil {
		return Rebuilt{Rebuilt: rebuilt}, err
	}
	o.stands("the book is made: it is in %s", into)
	d, err := OpenToRead(Options{Book: into, Now: time.Now})
	if err != nil {
		return Rebuilt{Rebuilt: rebuilt}, err
	}
	club, err := d.Club()
	station := inventory.Notice{Hint: fmt.Sprintf("steeltally club --book %q --station DIGIT, the old one's where that is gone", into)}
	if club.Station == nil {
		station.Text = fmt.Sprintf("stations %s gave numbers in the old book: say which one the new book is", inventory.SayDigits(club.Digits))
	} else {
		station.Text = fmt.Sprintf("it gives numbers as station %d, and so does the old book; what the old one gave since this copy of it comes again", *club.Station)
	}
	unsafe := d.unsafeAsides()
	return Rebuilt{rebuilt, append(unsafe.notices(), station)}, errors.Join(err, unsafe.unread, d.Close())
}

// Export writes the whole journal to a file and tells how many entries it has.
func (d *Desk) Export(path string) (uint64, error) {
	if err := d.options.outlet(path).write(d.book.Export); err != nil {
		return 0, err
	}
	counts, err := d.book.Counts()
	return counts.Events, err
}

// Merged is what was taken in from another book, and what to know of it.
type Merged struct {
	book.Merged
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// Merge takes in what another book, a backup or an export knows; one of another club
// only where that is wanted.
func (d *Desk) Merge(from string, anyClub bool) (Merged, error) {
	before, err := d.stations()
	if err != nil {
		return Merged{}, err
	}
	merged, err := d.book.Merge(book.Other{From: from, Program: Program, AnyClub: anyClub})
	if err != nil {
		return Merged{Merged: merged}, err
	}
	if merged.Added+merged.SetAside > 0 {
		d.options.stands("what was taken in is recorded: steeltally history shows it")
	}
	after, err := d.stations()
	unsafe := d.unsafeAsides()
	notices := append(unsafe.notices(), before.against(after)...)
	if merged.PutBack {
		notices = append(notices, inventory.Notice{
			Text: "the other book knew more of what this folder itself had written: it was put back to an older copy, or another copy went on as this one; from now on it writes under an id of its own",
			Hint: "steeltally setaside shows what contradicts, if anything does",
		})
	}
	return Merged{merged, append(notices, d.told()...)}, errors.Join(err, unsafe.unread)
}

// stations is what is said of a club and of who writes in its book.
type stations struct {
	own inventory.Writer
	inventory.Club
	flags int // where the record contradicts itself
}

func (d *Desk) stations() (s stations, err error) {
	err = d.book.Read(func(v inventory.View) error {
		s = stations{v.Writer(), *inventory.ClubOf(v), len(inventory.Flags(v))}
		return nil
	})
	return s, err
}

// against says what a merge changed that every later entry goes by.
func (s stations) against(after stations) []inventory.Notice {
	var notices []inventory.Notice
	if s.Name != after.Name || s.Zone != after.Zone {
		notices = append(notices, inventory.Notice{
			Text: fmt.Sprintf("the book is now that of %s, %s; it was that of %s, %s", after.Name, after.Zone, s.Name, s.Zone),
			Hint: fmt.Sprintf("if that is wrong: steeltally club --name %q --zone %s", s.Name, s.Zone),
		})
	}
	station := s.StationOf(s.own)
	for _, other := range after.Stations {
		if station.Known && other.Station == station.Digit && other.Writer != s.own && !slices.Contains(s.Stations, other) {
			notices = append(notices, inventory.Notice{
				Text: fmt.Sprintf("the other book gives numbers as station %d, and so does this one: two pieces can get the same number", station.Digit),
				Hint: "give one of them another digit before either gives new numbers: steeltally club --station DIGIT",
			})
			break
		}
	}
	if more := after.flags - s.flags; more > 0 {
		notices = append(notices, inventory.Notice{
			Text: fmt.Sprintf("places where the record contradicts itself, or is unsure, since this merge: %d", more), Hint: "steeltally work shows them",
		})
	}
	return notices
}

// TagRebuild is what a heap of scanned tags brought back.
type TagRebuild struct {
	Book       string             `json:"book"`
	Made       bool               `json:"made"` // the book was made for it
	Rebuilt    int                `json:"rebuilt"`
	Duplicates int                `json:"duplicates"`
	Refused    []deeds.RefusedTag `json:"refused"`
	Notices    []inventory.Notice `json:"notices,omitempty"`
}

// RebuildFromTags puts the removed pieces that scanned tags tell of into the book of
// the options, which is made where there is none. What the book knows better it keeps.
func RebuildFromTags(o Options, club deeds.FoundClub, scans []string) (TagRebuild, error) {
	o.At = "" // a tag says itself when its piece came off
	result := TagRebuild{Book: o.Book, Refused: []deeds.RefusedTag{}}
	if free, err := isFree(o.Book); err != nil {
		return result, err
	} else if free {
		if club.Station < 0 {
			club.Station = commonStation(scans)
		}
		if err := Init(o, club); err != nil {
			return result, err
		}
		result.Made = true
	}
	d, err := Open(o)
	if err != nil {
		return result, err
	}
	defer d.Close()
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		sorted := deeds.SortTags(v, m.Now, scans)
		result.Rebuilt, result.Duplicates = len(sorted.New), sorted.Duplicates
		result.Refused = append(result.Refused, sorted.Refused...)
		return deeds.KnowFromTags(sorted.New), nil
	})
	result.Notices = done.Notices
	return result, err
}

// isFree tells whether nothing is at a path, or an empty folder.
func isFree(path string) (bool, error) {
	inside, err := os.ReadDir(path)
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if info, failed := os.Stat(path); failed == nil && !info.IsDir() {
		return false, nil // opening it says what is wrong
	}
	return err == nil && len(inside) == 0, err
}

// commonStation is the station that gave most of the scanned tags their numbers.
func commonStation(scans []string) int {
	var counts [inventory.MaxStation + 1]int
	most := 0
	for _, scan := range scans {
		n, err := inventory.ScannedNumber(scan)
		if err != nil {
			continue
		}
		if counts[n.Station()]++; counts[n.Station()] > counts[most] {
			most = n.Station()
		}
	}
	return most
}

// Report is what was found in the book's two files.
type Report = book.Report

// verifyLimit is how long a look at both files may take, however large they are.
const verifyLimit = 10 * time.Minute

// crashExit is the exit code of a child that crashed; where it was killed there is none.
// With any other one it says why it could not look, such as that the files are not to be read.
const crashExit = 2

// VerifyHere looks at both files of the book in this process, and whether they are older
// ones that were put back.
func VerifyHere(o Options) (Report, error) {
	r, err := book.VerifyHere(o.Book, Program)
	if err != nil || !r.OK {
		return r, err
	}
	r.Back = book.PutBack(o.Book, book.Options{Program: Program, Marks: o.marks()})
	if r.Back != nil {
		r.Notes = append(r.Notes, putBack(r.Back.All())+"; "+putBackHint)
	}
	return r, nil
}

// Mended is what Mend came to.
type Mended = book.Mended

// Mend writes the journal as it was before another program rewrote it, where that is all.
func Mend(o Options) (Mended, error) {
	mended, err := book.Mend(o.Book, Program)
	if err == nil && mended.Was != "" {
		o.stands("what could be mended is mended: steeltally verify looks again")
	}
	return mended, err
}

// Verify lets a process of its own look, so that a failing disk takes only that one
// down: self is this program's file, and its arguments run VerifyHere there.
func Verify(ctx context.Context, o Options, self string, arguments ...string) (Report, error) {
	ctx, cancel := context.WithTimeout(ctx, verifyLimit)
	defer cancel()
	report, err := book.Verify(ctx, self, append(arguments, "--book", o.Book)...)
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 && exit.ExitCode() != crashExit {
		return VerifyHere(o) // it could not even begin: say why
	}
	return report, err
}

// verifiedError is damage that was looked at already.
type verifiedError struct{ error }

func (e *verifiedError) Unwrap() error { return e.error }

// DamageOf is the error that a report stands for; nil where all is well.
func DamageOf(o Options, r Report) error {
	if err := r.Damage(o.Book); err != nil {
		return &verifiedError{err}
	}
	return nil
}
