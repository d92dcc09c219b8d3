package jig

import (
	"strconv"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// actionOf is the action card that was scanned.
func actionOf(text string) (inventory.ActionCode, bool) {
	n, err := inventory.ParseNumber(text)
	if err != nil || n.Kind() != inventory.KindAction {
		return 0, false
	}
	return inventory.ActionCode(n.Running()), true
}

func (j *Jig) action(action inventory.ActionCode) error {
	switch action {
	case inventory.ActGrind, inventory.ActLook:
		j.mode(action == inventory.ActGrind)
	case inventory.ActUndo:
		return j.undo()
	case inventory.ActDone:
		j.reply.Over = true
	case inventory.ActUsual:
		return j.usual()
	case inventory.ActSound:
		return j.inspect()
	case inventory.ActLeft1:
		return j.more(inventory.Left, "1")
	case inventory.ActRight1:
		return j.more(inventory.Right, "1")
	case inventory.ActBrokeLeft:
		return j.emergency(inventory.Left)
	case inventory.ActBrokeRight:
		return j.emergency(inventory.Right)
	case inventory.ActChange:
		return j.change(changing{})
	case inventory.ActYes, inventory.ActNo:
		j.say("nothing was asked")
	default:
		return &inventory.Refusal{Reason: "this version does not know that action card", Hint: "print the card anew"}
	}
	return nil
}

const theKeys = "Enter usual grind · l2 r2 more left, right · b6 six on both · x passes unknown · m heights · " +
	"c change · i sound · e el er broke · ed back · ef first pair again · u take back · g each scan grinds · q end"

// act is what a key does.
type act func(j *Jig) error

// IsKey tells whether a line is a key of the talk: a letter, with what stands behind it; an
// action card; or what a caliper types.
func IsKey(text string) bool {
	_, isCard := actionOf(text)
	_, isHeight := caliperReading(text)
	return text != "" && (isCard || isHeight || keyOf(text) != nil)
}

// keyOf is what a line does that is a key; nil where it is none.
func keyOf(text string) act {
	switch text {
	case "":
		return (*Jig).usual
	case "u":
		return (*Jig).undo
	case "q":
		return func(j *Jig) error { j.reply.Over = true; return nil }
	case "?":
		return func(j *Jig) error { j.say(theKeys); return nil }
	case "i":
		return (*Jig).inspect
	case "e":
		return func(j *Jig) error { return j.emergency("") }
	case "el":
		return func(j *Jig) error { return j.emergency(inventory.Left) }
	case "er":
		return func(j *Jig) error { return j.emergency(inventory.Right) }
	case "ed":
		return (*Jig).back
	case "ef":
		return (*Jig).firstAgain
	case "m":
		return (*Jig).askHeights
	case "x":
		return func(j *Jig) error { return j.grind(deeds.Grind{Unknown: true}, text) }
	case "g":
		return func(j *Jig) error { j.mode(!j.State.Grinding); return nil }
	}
	return keyWithValue(text)
}

// keyWithValue is what a letter does with what stands behind it: l2, b6, m 11.1 11.0, c
// rotate.
func keyWithValue(text string) act {
	if c, ok, err := changeKey(text); ok {
		if err != nil {
			return func(*Jig) error { return err }
		}
		return func(j *Jig) error { return j.change(*c) }
	}
	letter, rest := text[:1], strings.TrimSpace(text[1:])
	switch {
	case letter == "m" && strings.HasPrefix(text, "m "):
		return func(j *Jig) error { return j.measureTyped(strings.Fields(rest)) }
	case rest == "" || strings.Trim(rest, "0123456789") != "":
		return nil
	case letter == "l":
		return func(j *Jig) error { return j.more(inventory.Left, rest) }
	case letter == "r":
		return func(j *Jig) error { return j.more(inventory.Right, rest) }
	case letter == "b":
		return func(j *Jig) error { return j.both(text, rest) }
	}
	return nil
}

// hintAtCapsLock says of what nobody knows, and what could be a key in capitals, that keys
// are small letters. It is not taken for the key: a shelf's label can be B6.
func hintAtCapsLock(text string, err error) error {
	const mostLetters = 2
	word, _, _ := strings.Cut(strings.TrimRight(text, "0123456789"), " ")
	if len(word) == 0 || len(word) > mostLetters || strings.Trim(word, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return err
	}
	return inventory.Refuse(err.Error(), "keys are small letters: is Caps Lock on?")
}

// mode says what a scan does from now on.
func (j *Jig) mode(grinding bool) {
	j.State.Grinding = grinding
	if grinding {
		j.say("from now on each scan logs the usual grind")
		return
	}
	j.say("from now on a scan only shows")
}

// undo takes back the caliper's last reading, or else the last action.
func (j *Jig) undo() error {
	if n := len(j.State.Readings); n > 0 {
		j.say("reading " + j.State.Readings[n-1].String() + " is dropped")
		j.State.Readings = j.State.Readings[:n-1]
		return nil
	}
	if len(j.State.Mine) == 0 {
		return j.askTake()
	}
	return j.done(j.State.TakeBack(j.Desk))
}

// askTake asks before something is taken back that was not recorded from here.
func (j *Jig) askTake() error {
	keys, last, err := j.Desk.LastAction()
	if err != nil {
		return err
	}
	if !j.MayAsk || len(keys) == 0 {
		return &inventory.Refusal{Reason: "nothing was recorded from here", Hint: "steeltally undo takes the book's latest back: " + last}
	}
	j.ask(Question{Sort: askTake, Text: "nothing was recorded from here; take this back? " + last, Line: "u", Keys: keys})
	return nil
}

// inspect notes that a pair, or the piece itself, was looked at and is sound.
func (j *Jig) inspect() error {
	piece := j.State.About.Number
	if piece == 0 {
		return nothingMeant("scan a pair, a holder or a runner first")
	}
	if pair := j.State.About.Target.Pair; pair != 0 {
		piece = pair
	}
	return j.lookedAt(piece)
}

// passes reads a number of passes.
func passes(text string) (*int, error) {
	n, err := strconv.Atoi(text)
	if err != nil {
		return nil, &inventory.BadValue{Reason: text + " is no number of passes", Hint: "such as l2, r1 or b6"}
	}
	return &n, nil
}
