package jig

import (
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// changing is what stands behind the key c.
type changing struct {
	letter string // of the set that goes on; empty: the one that was scanned
	off    desk.Off
}

// changeKey reads "c", and what may stand behind it in this order: the letter of the set
// that goes on, why the old steel comes off, and its final heights left and right.
func changeKey(text string) (c *changing, isKey bool, err error) {
	c, isKey = readChange(text)
	if isKey {
		return c, true, nil
	}
	fields := strings.Fields(text)
	if len(fields) < 2 || fields[0] != "c" {
		return nil, false, nil
	}
	if _, notHeight := geometry.ParseHeight(fields[1]); notHeight != nil && !isLetter(fields[1]) && !slices.Contains(inventory.Reasons(), inventory.Reason(fields[1])) {
		return nil, false, nil // a name
	}
	return nil, true, &inventory.BadValue{
		Reason: inventory.Clip(text) + ": after c come the set's letter, why, and both final heights",
		Hint:   "such as c B low 9.4 9.6, or c B rotate; why is one of " + inventory.List(inventory.Reasons()),
	}
}

func readChange(text string) (*changing, bool) {
	fields := strings.Fields(text)
	if len(fields) == 0 || fields[0] != "c" {
		return nil, false
	}
	c := &changing{}
	fields = fields[1:]
	if len(fields) > 0 && isLetter(fields[0]) {
		c.letter, fields = strings.ToUpper(fields[0]), fields[1:]
	}
	if len(fields) > 0 && slices.Contains(inventory.Reasons(), inventory.Reason(fields[0])) {
		c.off.Reason, fields = inventory.Reason(fields[0]), fields[1:]
	}
	if len(fields) == 2 {
		left, leftErr := geometry.ParseHeight(fields[0])
		right, rightErr := geometry.ParseHeight(fields[1])
		c.off.Heights = inventory.Both[geometry.Millimetre]{Left: &left, Right: &right}
		return c, leftErr == nil && rightErr == nil
	}
	return c, len(fields) == 0
}

// isLetter tells whether a word is the letter of a set: A to Z, then AA and so on.
func isLetter(word string) bool {
	return len(word) <= 2 && strings.Trim(strings.ToUpper(word), "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// change puts a set on in place of what is on: the one with a letter, else the one in the
// hand. Where neither is known, the next one that is scanned goes on.
func (j *Jig) change(c changing) error {
	set := j.State.About.Target.Set
	on, err := j.Desk.IsOn(set)
	if err != nil {
		return err
	}
	if c.letter == "" && (set == 0 || on) {
		j.State.Changing = true
		j.say("change: scan the set that goes on")
		return nil
	}
	player := j.State.About.Player
	if player == 0 {
		return nothingMeant("scan the player, the pair or the set first")
	}
	if c.letter == "" {
		c.letter = set.String()
	}
	j.State.Changing = false
	c.off.Who = player.String()
	if c.off.Reason == "" {
		reason, doubt, err := j.Desk.WhyOff(c.off)
		if err != nil {
			return err
		}
		if doubt.Text != "" && j.MayAsk {
			j.ask(Question{Sort: askWhy, Text: "the old steel is not low: why does it come off?", Choices: inventory.Texts(inventory.Reasons()), Line: c.letter, Players: []inventory.Number{player}})
			return nil
		}
		if doubt.Text != "" {
			j.reply.Notices = append(j.reply.Notices, doubt)
		}
		c.off.Reason = reason
	}
	done, err := j.Desk.PutOn(c.off, c.letter)
	if err != nil {
		return err
	}
	j.reply.Removed = append(j.reply.Removed, done.Retired()...)
	j.State.About = About{player, player, desk.Target{Player: player}} // what is done next is done to what is on
	return j.done(done, nil)
}

// answerWhy takes the reason of a change. What is none leaves the steel as it is.
func (j *Jig) answerWhy(q Question, text string) (bool, error) {
	reason := pickWord(q.Choices, text)
	if reason == "" || isScan(text) || len(q.Players) != 1 {
		j.say("not changed")
		return text == "", nil
	}
	j.State.About.Player = q.Players[0]
	return true, j.change(changing{letter: q.Line, off: desk.Off{Reason: inventory.Reason(reason)}})
}
