package deeds

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// ReportDamage is what was found wrong with a runner, a holder or a pair.
type ReportDamage struct {
	Piece        inventory.Number
	Mode         inventory.Mode
	Zone         inventory.Zone
	Face         string
	Cause        string
	Found        string
	ShiftsMissed *int
	Minutes      *float64
	Note         string
	Photos       []string // as the book keeps them
}

const (
	mostShifts  = 60
	mostMinutes = 24 * 60
)

// Decide records the damage with the pair and player that it happened to. A crack, a
// break or a bend makes the piece unsafe for good.
func (d ReportDamage) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := d.check(); err != nil {
		return out, err
	}
	body := &inventory.Damaged{
		Piece: d.Piece, Mode: d.Mode, Zone: d.Zone, Face: d.Face, Cause: d.Cause, Found: d.Found,
		Unsafe: d.Mode.ForbidsUse(), ShiftsMissed: d.ShiftsMissed, Minutes: d.Minutes, Note: d.Note,
		Photos: d.Photos,
	}
	var err error
	body.Pair, body.Player, err = hangingOn(v, d.Piece, m.at())
	if err != nil {
		return out, err
	}
	if entry, stands := d.standing(v, m.at()); stands {
		return out, inventory.Refuse(fmt.Sprintf("%s, %s is noted already (%s)", d.Piece.Short(), body.Where(), entry),
			"if it is another one say where or how: --zone, --face, --note; if that entry is wrong: steeltally undo "+entry.String()+", and note it anew")
	}
	if body.Unsafe {
		hint := "take it off the ice now"
		if body.Pair != 0 {
			hint = "take it off pair " + body.Pair.Short() + " now"
		}
		out.tell(d.Piece.Short()+" is unsafe: DO NOT SKATE", hint)
	}
	out.record(m.Happened, body)
	return out, nil
}

// standing is the entry that says the same of the piece already, where there is one.
func (d ReportDamage) standing(v inventory.View, at time.Time) (inventory.Key, bool) {
	return inventory.MarksOf(v, d.Piece).Standing(&inventory.Damaged{Mode: d.Mode, Zone: d.Zone, Face: d.Face, Note: d.Note}, at, enteredTwice)
}

func (d ReportDamage) check() error {
	for _, word := range []struct {
		what, word string
		known      []string
	}{
		{"mode", string(d.Mode), inventory.Texts(inventory.Modes())}, {"zone", string(d.Zone), inventory.Texts(inventory.Zones())}, {"face", d.Face, inventory.Faces()},
		{"cause", d.Cause, inventory.Causes()}, {"found", d.Found, inventory.FoundWhen()},
	} {
		if word.word == "" && word.what != "mode" {
			continue
		}
		if err := oneOf(word.what, word.word, word.known); err != nil {
			return inventory.RefuseValue(err.Error(), "")
		}
	}
	if d.ShiftsMissed != nil && (*d.ShiftsMissed < 0 || *d.ShiftsMissed > mostShifts) {
		return inventory.RefuseValue(fmt.Sprintf("%d shifts missed: 0 to %d are possible", *d.ShiftsMissed, mostShifts), "")
	}
	if d.Minutes != nil && (*d.Minutes < 0 || *d.Minutes > mostMinutes) {
		return inventory.RefuseValue("the time that it took can't be right", "write it as 90s, 5m or 1h")
	}
	return nil
}

// hangingOn is the pair and the player that a piece belongs to at an instant; zero
// where it is on none.
func hangingOn(v inventory.View, n inventory.Number, at time.Time) (pair, player inventory.Number, err error) {
	switch n.Kind() {
	case inventory.KindRunner:
		runner, err := inventory.FindRunner(v, n)
		if err != nil {
			return 0, 0, err
		}
		move, _ := runner.Moves.At(at)
		if move.Kind != inventory.WentIn {
			move.Pair = 0 // it was on that pair once
		}
		return move.Pair, move.Player, nil
	case inventory.KindHolder:
		holder, err := inventory.FindHolder(v, n)
		if err != nil {
			return 0, 0, err
		}
		pair = holder.BootAt(at).Pair
	case inventory.KindPair:
		pair = n
	default:
		return 0, 0, inventory.Refuse(fmt.Sprintf("a %s is not damaged, a piece is", n.Kind()), "scan the runner, the holder or the pair")
	}
	if pair == 0 {
		return 0, 0, nil
	}
	boots, err := inventory.FindPair(v, pair)
	if err != nil {
		return 0, 0, err
	}
	return pair, boots.Player, nil
}

// Inspect is a look at a piece, or at a pair with all that hangs on it.
type Inspect struct {
	Piece inventory.Number
	Sound bool
	Note  string
	Sure  []inventory.Number // pieces of which it was said a second time that they are sound
}

// LiftError says that a look would lift DO NOT SKATE from pieces that were not named once
// more: a slip of a key never does.
type LiftError struct {
	*inventory.Refusal
	Pieces []inventory.Number
}

func (e *LiftError) Unwrap() error { return e.Refusal }

// checkLifted refuses to lift what was not named twice.
func checkLifted(v inventory.View, pieces, sure []inventory.Number, at time.Time) error {
	var lifted []inventory.Number
	var short []string
	hint := "only where somebody looked and it is sound: add"
	for _, n := range pieces {
		if !standing.Skateable(v, at, n) && !slices.Contains(sure, n) {
			lifted = append(lifted, n)
			short, hint = append(short, n.Short()), hint+" --sound "+n.Short()
		}
	}
	if len(lifted) == 0 {
		return nil
	}
	return &LiftError{&inventory.Refusal{Reason: "DO NOT SKATE on " + strings.Join(short, " ") + ": it is lifted only from a piece that is named once more", Hint: hint}, lifted}
}

// Decide records the look. Found sound closes what is mended (a bolt, a rivet); a
// crack, a break or a bend stays.
func (d Inspect) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if _, _, err := hangingOn(v, d.Piece, m.at()); err != nil {
		return out, err
	}
	body := &inventory.Inspected{Pieces: []inventory.Number{d.Piece}, Sound: d.Sound, Note: d.Note}
	if pair, ok := v.Entity(inventory.RefOf(d.Piece)).(*inventory.Pair); ok {
		body.Pieces = append(body.Pieces, inventory.PiecesOn(pair, m.at())...)
	}
	for _, n := range body.Pieces {
		if d.Sound && standing.OwnSafety(v, n, m.at()) == standing.DoNotSkate {
			return out, inventory.Refuse(n.Short()+" has a damage that no look closes: do not skate on it", "if that was a mistake, undo it: steeltally history "+n.Short())
		}
	}
	if d.Sound {
		if err := checkLifted(v, body.Pieces, d.Sure, m.at()); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, body)
	return out, nil
}

// PutAt puts pieces at a place.
type PutAt struct {
	Pieces []inventory.Number
	Place  inventory.Place
}

// Decide records the place; a set's runners lie where the set lies.
func (d PutAt) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the place", d.Place.Name); err != nil {
		return out, err
	}
	if len(d.Pieces) == 0 {
		return out, inventory.RefuseValue("no piece was named", "scan what lies there")
	}
	body := &inventory.Placed{Place: d.Place}
	for _, n := range d.Pieces {
		state := v.Entity(inventory.RefOf(n))
		if !inventory.IsEntered(state) {
			state = nil
		}
		switch state := state.(type) {
		case *inventory.Runner, *inventory.Holder, *inventory.Pair:
			body.Pieces = append(body.Pieces, n)
		case *inventory.Set:
			body.Pieces = append(body.Pieces, n, state.Left, state.Right)
		default:
			return out, inventory.Refuse(n.Short()+" is not a piece in this book", "scan a runner, a holder, a pair or a set")
		}
	}
	out.record(m.Happened, body)
	return out, nil
}
