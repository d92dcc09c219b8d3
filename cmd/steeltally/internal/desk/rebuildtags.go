package desk

import (
	"errors"
	"io/fs"
	"os"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
