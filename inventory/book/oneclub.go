package book

import (
	"bytes"
	"fmt"

	"steeltally/inventory"
)

// checkOneClub refuses a folder whose two files are of the books of two clubs: they have
// no line and no writer in common, and neither club was ever called as the other.
func (s *salvage) checkOneClub(dir string) error {
	if s.common || s.shareWriter() {
		return nil
	}
	db, err := s.clubIn(true)
	if err != nil {
		return err
	}
	text, err := s.clubIn(false)
	if err != nil || db.Name == "" || text.Name == "" || db.Named(text.Name) || text.Named(db.Name) {
		return err
	}
	return &TwoClubsError{dir, text.Name, db.Name}
}

// TwoClubsError says that a folder holds files of two books.
type TwoClubsError struct{ Dir, Journal, DB string }

func (e *TwoClubsError) Error() string {
	return fmt.Sprintf("in %s the journal is of %s and book.db of %s: nothing was rebuilt; take one of them out of a copy of the folder, and rebuild from that",
		e.Dir, e.Journal, e.DB)
}

func (s *salvage) shareWriter() bool {
	inDB := map[writerID]bool{}
	for _, one := range s.found {
		if one.inDB {
			inDB[one.at.packedKey().writerID()] = true
		}
	}
	for _, one := range s.found {
		if !one.inDB && inDB[one.at.packedKey().writerID()] {
			return true
		}
	}
	return false
}

// clubIn is what one of the two files says of the club, with all that it was called.
func (s *salvage) clubIn(db bool) (club inventory.Club, err error) {
	for _, one := range s.found {
		if one.inDB != db {
			continue
		}
		e, err := s.clubNoted(one)
		if err != nil {
			return club, err
		}
		if e != nil {
			club.Apply(e)
		}
	}
	return club, nil
}

// clubNoted reads a line that says what the club is called; nil where it is another.
func (s *salvage) clubNoted(one intact) (*inventory.Event, error) {
	line, err := s.line(one)
	named := fmt.Appendf(nil, `"kind":%q`, (*inventory.ClubNoted)(nil).Kind())
	if err != nil || !bytes.Contains(line, named) {
		return nil, err
	}
	e, err := decodeLine(line)
	if err != nil {
		return nil, err
	}
	if _, ok := e.Body.(*inventory.ClubNoted); !ok {
		return nil, nil
	}
	return e, nil
}
