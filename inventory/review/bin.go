package review

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"steeltally/inventory"
)

// Bin is what a heap of scanned tags comes to.
type Bin struct {
	Lives      []*Life
	Duplicates []Apart // scanned more than once
	Foreign    []Apart // not one of our numbers, or not whole
	Unknown    []Apart // one of ours that neither the record nor a tag's text tells of
	Stale      []Apart // an old tag of a piece that was put back in use
	Misplaced  []Apart // the record has it elsewhere: on a pair, or ready
}

// Apart is a scan that is told by itself.
type Apart struct {
	Scan   string           `json:"scan"`
	Number inventory.Number `json:"number,omitempty"`
	What   string           `json:"what"`
}

// SortBin sorts scans, one a tag, in any order. A piece that the record knows is told
// from the record; of the others the tag of the highest generation counts.
func (r *Reader) SortBin(scans []string) Bin {
	b := binSorter{reader: r, heard: map[inventory.Number]*heard{}}
	for _, scan := range scans {
		if scan = strings.TrimSpace(scan); scan != "" && !strings.HasPrefix(scan, "#") {
			b.read(scan)
		}
	}
	for _, n := range b.order {
		b.settle(n)
	}
	return b.Bin
}

type binSorter struct {
	Bin
	reader *Reader
	order  []inventory.Number // as first scanned
	heard  map[inventory.Number]*heard
}

// heard is what was scanned of one piece.
type heard struct {
	scans int
	tags  map[int]*inventory.TagFacts // by generation
}

// latest is the tag of the highest generation, or nil.
func (h *heard) latest() *inventory.TagFacts {
	var best *inventory.TagFacts
	for _, tag := range h.tags {
		if best == nil || tag.Generation > best.Generation {
			best = tag
		}
	}
	return best
}

// read hears one scan.
func (b *binSorter) read(scan string) {
	n, facts, err := b.parse(scan)
	if err != nil {
		b.Foreign = append(b.Foreign, Apart{Scan: scan, What: reasonOf(err)})
		return
	}
	if n.Kind() != inventory.KindRunner && n.Kind() != inventory.KindHolder {
		b.Foreign = append(b.Foreign, Apart{scan, n, "a " + n.Kind().String() + ", not a runner or a holder"})
		return
	}
	h := b.heard[n]
	if h == nil {
		h = &heard{tags: map[int]*inventory.TagFacts{}}
		b.heard[n], b.order = h, append(b.order, n)
	}
	h.scans++
	if facts != nil {
		h.tags[facts.Generation] = facts
	}
}

func (b *binSorter) parse(scan string) (inventory.Number, *inventory.TagFacts, error) {
	scan = inventory.AsScanned(scan)
	if !inventory.IsTally(scan) {
		n, err := inventory.ParseNumber(scan)
		return n, nil, err
	}
	tally, err := inventory.ParseTally(scan)
	if err != nil {
		return 0, nil, err
	}
	facts, err := tally.Facts(b.reader.zone)
	return tally.Piece, &facts, err
}

// reasonOf is why a scan is none of ours, without the scan itself.
func reasonOf(err error) string {
	if notNumber, ok := err.(*inventory.NotANumber); ok {
		return notNumber.Reason
	}
	return err.Error()
}

// settle finds the life of a piece: from the record, else from its tag.
func (b *binSorter) settle(n inventory.Number) {
	h := b.heard[n]
	facts := h.latest()
	if h.scans > max(1, len(h.tags)) {
		b.Duplicates = append(b.Duplicates, Apart{n.String(), n, fmt.Sprintf("scanned %d times", h.scans)})
	}
	life, known := b.reader.Life(n)
	switch {
	case !known && facts == nil:
		b.Unknown = append(b.Unknown, Apart{n.String(), n, "not in this book, and a number alone tells nothing: scan the tag's large symbol"})
		return
	case !known:
		life = lifeOfTag(*facts, b.reader.zone)
	}
	b.tellStale(n, h, life)
	if known && life.InUse && !life.FromTag {
		b.Misplaced = append(b.Misplaced, Apart{n.String(), n, "in the bin, but in use or ready as far as the book knows"})
	}
	b.Lives = append(b.Lives, life)
}

// tellStale tells of tags that are older than the piece's latest use.
func (b *binSorter) tellStale(n inventory.Number, h *heard, life *Life) {
	current := 0
	if life.runner != nil {
		current = life.runner.Generation(b.reader.at)
	}
	if latest := h.latest(); latest != nil {
		current = max(current, latest.Generation)
	}
	for _, generation := range slices.Sorted(maps.Keys(h.tags)) {
		if generation < current {
			b.Stale = append(b.Stale, Apart{n.String(), n, fmt.Sprintf("an old tag: it was put back in use since (tag %d, now %d); throw the tag away", generation, current)})
		}
	}
}
