package labels_test

import (
	"errors"
	"strings"
	"testing"

	"steeltally/labels"
	"steeltally/templates"
)

// sheet reads an embedded sheet.
func sheet(t *testing.T, name string) *templates.Sheet {
	t.Helper()
	s, err := templates.Embedded().Sheet(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// tags are n tie-on tags.
func tags(t *testing.T, n int) []labels.Page {
	t.Helper()
	list := make([]labels.Page, n)
	for i := range list {
		list[i] = tieOn(t, templates.Sample(), 203)
	}
	return list
}

func TestImposeStartsAtAnyCell(t *testing.T) {
	a4 := sheet(t, "a4-3x8")
	for _, c := range []struct{ tags, start, sheets, first, onFirst int }{
		{1, 0, 1, 0, 1}, {24, 1, 1, 0, 24}, {25, 1, 2, 0, 24}, {1, 24, 1, 23, 1}, {2, 24, 2, 23, 1}, {30, 5, 2, 4, 20},
	} {
		pages, err := labels.Imposition{Sheet: a4, Start: c.start}.Impose(tags(t, c.tags))
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != c.sheets {
			t.Errorf("%d tags from cell %d: %d sheets, want %d", c.tags, c.start, len(pages), c.sheets)
		}
		if got := len(pages[0].Symbols) / 2; got != c.onFirst {
			t.Errorf("%d tags from cell %d: %d on the first sheet, want %d", c.tags, c.start, got, c.onFirst)
		}
		cell := a4.Cell(c.first)
		x, y := cell.X.Dots(203), cell.Y.Dots(203)
		if bar := pages[0].Ink[0]; bar.X != x || bar.Y != y {
			t.Errorf("%d tags from cell %d: the first bar is at %d, %d, want %d, %d", c.tags, c.start, bar.X, bar.Y, x, y)
		}
	}
}

// A full sheet is as faultless as its tags.
func TestImposedSheetIsFaultless(t *testing.T) {
	for _, marks := range []bool{false, true} {
		pages, err := labels.Imposition{Sheet: sheet(t, "a4-3x8"), CutMarks: marks}.Impose(tags(t, 24))
		if err != nil {
			t.Fatal(err)
		}
		if faults := pages[0].Faults(); faults != nil {
			t.Errorf("cut marks %v: %s", marks, strings.Join(faults, "\n"))
		}
	}
}

// A tag in a larger cell has an outline to be cut along.
func TestImposeOutlinesASmallerTag(t *testing.T) {
	tag := tags(t, 1)[0]
	pages, err := labels.Imposition{Sheet: sheet(t, "roll-70x70")}.Impose([]labels.Page{tag})
	if err != nil {
		t.Fatal(err)
	}
	if got := len(pages[0].Marks) - len(tag.Marks); got != 1 {
		t.Errorf("%d lines more than the tag's own, want the lower edge", got)
	}
}

func TestImposeRefuses(t *testing.T) {
	small, a4 := sheet(t, "roll-50x25"), sheet(t, "a4-3x8")
	if _, err := (labels.Imposition{Sheet: small}).Impose(tags(t, 1)); !errors.Is(err, labels.ErrTooBig) {
		t.Errorf("a tag larger than the label: %v", err)
	}
	if _, err := (labels.Imposition{Sheet: a4, Start: 25}).Impose(tags(t, 1)); !errors.Is(err, labels.ErrStart) {
		t.Errorf("cell 25 of 24: %v", err)
	}
	if _, err := (labels.Imposition{Sheet: a4}).Impose(nil); err == nil {
		t.Error("no tags were taken")
	}
	mixed := tags(t, 2)
	mixed[1].DPI = 300
	if _, err := (labels.Imposition{Sheet: a4}).Impose(mixed); err == nil {
		t.Error("tags of two resolutions were taken")
	}
}

func TestCheckFitSaysWhatFits(t *testing.T) {
	library := templates.Embedded()
	tag, err := library.Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	err = labels.CheckFit(library, tag, sheet(t, "letter-3x10"))
	if !errors.Is(err, labels.ErrTooBig) || !strings.Contains(err.Error(), "letter-3x7") || !strings.Contains(err.Error(), "roll-70x35") {
		t.Errorf("a tie-on tag on letter-3x10: %v", err)
	}
	if err := labels.CheckFit(library, tag, sheet(t, "a4-3x8")); err != nil {
		t.Errorf("a tie-on tag on a4-3x8: %v", err)
	}
}
