package station

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// binScreen is what the scans of the bin come to so far.
func (s *Station) binScreen(d *desk.Desk, t *talk) (drawing, error) {
	if len(t.Bin) == 0 {
		return s.of("bin", nil), nil
	}
	read, err := d.ReadReview(desk.ReviewAsked{Scans: t.Bin, Bin: true})
	return func() (string, error) {
		review, err := read.Compile()
		return s.render("bin", review), err
	}, err
}

// binLine takes a scan into the bin.
func binLine(t *talk, line string) (told, error) {
	switch {
	case line == "":
		return told{Tone: toneShown, Lines: []string{"scan the tags of the bin, one after the other"}}, nil
	case line == "u" && len(t.Bin) > 0:
		last := t.Bin[len(t.Bin)-1]
		t.Bin = t.Bin[:len(t.Bin)-1]
		return told{Tone: toneShown, Lines: []string{"left out again: " + shortOf(last)}}, nil
	case line == "q":
		t.Bin, t.Screen = nil, atJig
		return told{Tone: toneShown, Lines: []string{"the bin is put away; nothing of it was recorded"}}, nil
	}
	before := len(t.Bin)
	n, err := inventory.ScannedNumber(line)
	for _, earlier := range t.Bin {
		if other, known := inventory.ScannedNumber(earlier); err == nil && known == nil && other == n {
			return told{Tone: toneLook, Lines: []string{n.Short() + " was scanned before: counted once"}}, nil
		}
	}
	if before >= mostBin {
		return told{}, &inventory.Refusal{Reason: "the bin is full", Hint: "review it, then q puts it away"}
	}
	if err != nil {
		return told{}, inventory.Refuse(err.Error(), "not taken into the bin")
	}
	t.Bin = append(t.Bin, line)
	return told{Tone: toneShown, Lines: []string{shortOf(line), desk.SayCount(len(t.Bin), "piece")}}, nil
}

// mostBin is more than any bin holds.
const mostBin = 2000
