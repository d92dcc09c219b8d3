package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// line acts on one line from the scanner or the keyboard.
func (l *scanLoop) line(text string) error {
	if action, ok := actionOf(text); ok {
		return l.action(action)
	}
	if acted, err := l.key(text); acted {
		return err
	}
	return l.scanned(text)
}

// actionOf is the action card that was scanned.
func actionOf(text string) (inventory.ActionCode, bool) {
	n, err := inventory.ParseNumber(text)
	if err != nil || n.Kind() != inventory.KindAction {
		return 0, false
	}
	return inventory.ActionCode(n.Running()), true
}

func (l *scanLoop) action(action inventory.ActionCode) error {
	switch action {
	case inventory.ActGrind:
		l.grinding = true
		l.app.voice.say("from now on each scan logs the usual grind")
	case inventory.ActLook:
		l.grinding = false
		l.app.voice.say("from now on a scan only shows")
	case inventory.ActUndo:
		return l.undo()
	case inventory.ActDone:
		l.over = true
	case inventory.ActUsual:
		return l.grind(inventory.Grind{})
	case inventory.ActSound:
		return l.inspect()
	case inventory.ActLeft1:
		return l.more(inventory.Left, "1")
	case inventory.ActRight1:
		return l.more(inventory.Right, "1")
	case inventory.ActBrokeLeft:
		return l.emergency(inventory.Left)
	case inventory.ActBrokeRight:
		return l.emergency(inventory.Right)
	case inventory.ActYes, inventory.ActNo:
		l.app.voice.say("nothing was asked")
	default:
		return &inventory.Refusal{Reason: "this version does not know that action card", Hint: "print the card anew"}
	}
	return nil
}

// key acts on a key and tells whether the line was one.
func (l *scanLoop) key(text string) (bool, error) {
	switch text {
	case "":
		return true, l.grind(inventory.Grind{})
	case "u":
		return true, l.undo()
	case "q":
		l.over = true
		return true, nil
	case "i":
		return true, l.inspect()
	case "e":
		return true, l.emergency("")
	case "el":
		return true, l.emergency(inventory.Left)
	case "er":
		return true, l.emergency(inventory.Right)
	case "ed":
		return true, l.emergencyDone()
	case "x":
		return true, l.grind(inventory.Grind{Unknown: true})
	case "g":
		if l.grinding {
			return true, l.action(inventory.ActLook)
		}
		return true, l.action(inventory.ActGrind)
	}
	return l.keyWithValue(text)
}

// keyWithValue acts on a letter with what stands behind it: l2, b6, m 11.1 11.0.
func (l *scanLoop) keyWithValue(text string) (bool, error) {
	letter, rest := text[:1], strings.TrimSpace(text[1:])
	switch {
	case letter == "m" && strings.HasPrefix(text, "m "):
		return true, l.measure(strings.Fields(rest))
	case rest == "" || strings.Trim(rest, "0123456789") != "":
		return false, nil
	case letter == "l":
		return true, l.more(inventory.Left, rest)
	case letter == "r":
		return true, l.more(inventory.Right, rest)
	case letter == "b":
		passes, err := strconv.Atoi(rest)
		if err != nil {
			return true, usage("%s is no number of passes", rest)
		}
		work := inventory.Grind{}
		work.Passes.Left, work.Passes.Right = &passes, &passes
		return true, l.grind(work)
	}
	return false, nil
}

// scanned shows what was scanned; while grinding it logs the usual grind at once.
func (l *scanLoop) scanned(text string) error {
	text, err := l.app.playerFrom(l.desk, text, l.answer)
	if err != nil {
		return err
	}
	if blank, err := l.desk.BlankTag(text); blank != 0 || err != nil {
		return l.register(blank, err)
	}
	card, err := l.desk.Card(text)
	if err != nil {
		return err
	}
	l.card = card
	l.app.sayCard(card)
	if l.grinding {
		return l.grind(inventory.Grind{})
	}
	return nil
}

// meant is the number that an action is about.
func (l *scanLoop) meant() (string, error) {
	target := l.card.Target
	for _, n := range []inventory.Number{target.Set, target.Pair, target.Player} {
		if n != 0 {
			return n.String(), nil
		}
	}
	return "", &inventory.Refusal{Reason: "nothing to act on", Hint: "scan a player, a pair or a set first"}
}

func (l *scanLoop) grind(work inventory.Grind) error {
	who, err := l.meant()
	if err != nil {
		return err
	}
	if !work.More && l.app.mayAsk() {
		twice, err := l.desk.GroundJustNow(who)
		if err != nil {
			return err
		}
		if twice && !l.yes("ground less than a minute ago; once more? (y/n) ") {
			l.app.voice.say("not logged again")
			return nil
		}
	}
	return l.done(l.desk.Grind([]string{who}, nil, "", work))
}

func (l *scanLoop) more(side inventory.Side, text string) error {
	passes, err := strconv.Atoi(text)
	if err != nil {
		return usage("%s is no number of passes", text)
	}
	work := inventory.Grind{More: true}
	work.Passes.Put(side, &passes)
	return l.grind(work)
}

func (l *scanLoop) measure(fields []string) error {
	who, err := l.meant()
	if err != nil {
		return err
	}
	if len(fields) != 2 {
		return usage("heights are typed left, then right: m 11.1 11.0")
	}
	caliper := desk.Caliper{Who: who}
	for i, side := range []inventory.Side{inventory.Left, inventory.Right} {
		height, err := parseHeights(fields[i])
		if err != nil {
			return &usageError{err}
		}
		caliper.Sides.Put(side, &height)
	}
	return l.done(l.desk.Measure(caliper))
}

func (l *scanLoop) inspect() error {
	if l.card.Number == 0 {
		return &inventory.Refusal{Reason: "nothing to act on", Hint: "scan a pair, a holder or a runner first"}
	}
	piece := l.card.Number
	if l.card.Target.Pair != 0 {
		piece = l.card.Target.Pair
	}
	return l.done(l.desk.Inspect(piece.String(), inventory.Inspect{Sound: true}))
}

func (l *scanLoop) undo() error { return l.done(l.desk.Correct(desk.Correction{})) }

func (l *scanLoop) done(done desk.Done, err error) error {
	if err != nil {
		return err
	}
	return l.app.voice.done(done, nil)
}

// answer reads the answer to a question from where the scans come from.
func (l *scanLoop) answer() string {
	if !l.next() {
		l.over = true
		return ""
	}
	return l.text
}

// yes asks a question; an action card can answer it. What is no answer means no, and
// is acted on next: a scan is never lost to a question.
func (l *scanLoop) yes(question string) bool {
	fmt.Fprint(l.app.world.Stdout, question)
	answer := strings.ToLower(l.answer())
	action, _ := actionOf(answer)
	isAnswer := slices.Contains([]string{"", "y", "yes", "n", "no"}, answer) || action == inventory.ActYes || action == inventory.ActNo
	l.kept = !l.over && !isAnswer
	return action == inventory.ActYes || answer == "y" || answer == "yes"
}
