package inventory

import (
	"fmt"
	"strings"
	"time"

	"steeltally/geometry"
)

// TallyWhen reads a date as a tally carries it (YYMMDD, YYMM, YY or nothing) in a zone.
// The years are 2000 to 2099.
func TallyWhen(text string, zone *time.Location) (When, error) {
	if text == "" {
		return When{}, nil
	}
	for _, form := range [...]struct {
		layout string
		unit   vagueUnit
	}{{"060102", vagueUnits[0]}, {"0601", vagueUnits[1]}, {"06", vagueUnits[2]}} {
		if len(text) != len(form.layout) {
			continue
		}
		start, err := time.ParseInLocation("20"+form.layout, "20"+text, zone)
		if err != nil {
			break
		}
		return Between(start, start.AddDate(form.unit.years, form.unit.months, form.unit.days)), nil
	}
	return When{}, fmt.Errorf("%s is no date", Clip(text))
}

// Facts are what the tally says, with its dates in the club's zone.
func (t Tally) Facts(zone *time.Location) (TagFacts, error) {
	facts := TagFacts{KnownFromTag: KnownFromTag{
		Piece: t.Piece, Generation: t.Generation, Player: t.Player, Sweater: t.Sweater, Side: t.Side,
		New: t.New, Final: t.Final, Grinds: t.Grinds, Passes: t.Passes, Unknown: t.Unknown,
		Reason: reasonOfTally(t), Later: t.Later,
	}}
	if !t.Hollow.Unknown() {
		facts.Hollow = &t.Hollow
	}
	var err error
	if facts.In, err = TallyWhen(t.In, zone); err != nil {
		return facts, fmt.Errorf("the date on which it went in: %w", err)
	}
	if facts.Out, err = TallyWhen(t.Out, zone); err != nil {
		return facts, fmt.Errorf("the date on which it came off: %w", err)
	}
	if !facts.Out.Unknown() && facts.In.After(facts.Out.End) {
		return facts, fmt.Errorf("it came off before it went in")
	}
	return facts, facts.check()
}

// check refuses heights that no steel has; a tag whose check digits fit carries them
// only where somebody made it up.
func (f *TagFacts) check() error {
	for what, height := range map[string]*geometry.Millimetre{"height new": f.New, "final height": f.Final} {
		if height != nil {
			if err := CheckHeight(what, *height); err != nil {
				return err
			}
		}
	}
	return nil
}

// Tally is the text of a tag with these facts.
func (f *TagFacts) Tally(zone *time.Location) Tally {
	t := Tally{
		Piece: f.Piece, Generation: f.Generation, Player: f.Player, Sweater: f.Sweater, Side: f.Side,
		In: TallyDate(f.In, zone), Out: TallyDate(f.Out, zone), New: f.New, Final: f.Final,
		Grinds: f.Grinds, Passes: f.Passes, Unknown: f.Unknown, Reason: f.Reason.Tally(), Later: f.Later,
	}
	if f.Hollow != nil {
		t.Hollow = *f.Hollow
	}
	return t
}

const tallyReasonLetters = 3

// Tally is the word as a tally carries it: its first three letters.
func (w Why) Tally() string {
	word := strings.ToUpper(string(w))
	return word[:min(tallyReasonLetters, len(word))]
}

// reasonOfTally is the word that a tally's reason stands for: a reason for a runner, a
// mode of damage for a holder. Where none or several begin so, it is what stands there.
func reasonOfTally(t Tally) Why {
	words := Texts(reasons)
	if t.Piece.Kind() == KindHolder {
		words = Texts(modes)
	}
	found := Why("")
	for _, word := range words {
		if Why(word).Tally() != t.Reason {
			continue
		}
		if found != "" {
			return Why(strings.ToLower(t.Reason))
		}
		found = Why(word)
	}
	if found == "" {
		return Why(strings.ToLower(t.Reason))
	}
	return found
}
