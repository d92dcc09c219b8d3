package jig

import (
	"slices"
	"strconv"
	"strings"

	"steeltally/inventory"
)

// The sorts of question.
const (
	askAgain = "again" // grind the same steel once more?
	askNamed = "named" // grind for who was named?
	askWhich = "which" // of several players
	askStock = "stock" // what does a blank tag stick on?
	askWhy   = "why"   // does steel come off that is not low?
	askSlip  = "slip"  // keep a height that looks like a slip of the caliper?
	askBack  = "back"  // how did the player get back on the ice?
	askTake  = "take"  // take back what was recorded elsewhere?
	askTall  = "tall"  // how high is the steel, left and right?
	askClock = "clock" // is the machine's clock right?
	askLook  = "look"  // did somebody look at what is marked DO NOT SKATE?
	askSound = "sound" // and which piece is it, once more?
)

// Question waits for an answer. A choice is made by its number from 1. A scan is never
// lost to a question: what is no answer is acted on, and the question is dropped.
type Question struct {
	Sort    string             `json:"sort"`
	Text    string             `json:"text"`
	Choices []string           `json:"choices,omitempty"`
	Line    string             `json:"line,omitempty"`    // what is done where the answer is yes
	Players []inventory.Number `json:"players,omitempty"` // of the choices
	Keys    []inventory.Key    `json:"keys,omitempty"`    // the entries that are asked about
	Number  inventory.Number   `json:"number,omitzero"`   // of the blank tag
	Inquiry *Inquiry           `json:"inquiry,omitempty"`
	Doubt   inventory.Key      `json:"doubt,omitzero"` // of the clock
	Lift    *Lifting           `json:"lift,omitempty"`
	Grinds  bool               `json:"grinds,omitempty"` // each scan ground when it was asked
	Origin
}

// YesOrNo tells whether the answer is one of these.
func (q Question) YesOrNo() bool {
	return slices.Contains([]string{askAgain, askNamed, askSlip, askTake, askClock, askLook}, q.Sort)
}

func (j *Jig) ask(q Question) {
	q.Grinds = j.State.Grinding
	if q.Origin = j.Origin; q.AfterwardsAsked() {
		q.Key, q.Fingerprint = "", "" // they stand for what is recorded already
	}
	j.State.Asked = &q
}

// answer takes a line as the answer to a question, and tells whether it was one. What a
// scan does is what it did when the question was asked.
func (j *Jig) answer(q Question, text string) (bool, error) {
	now := j.State.Grinding
	j.State.Grinding = q.Grinds
	defer func() { j.State.Grinding = now }()
	switch q.Sort {
	case askAgain:
		return j.yesOrNo(q, text, "not logged again")
	case askNamed:
		return j.yesOrNo(q, text, "nothing was ground")
	case askSlip:
		return j.yesOrNo(q, text, "not recorded")
	case askTake:
		return j.yesOrNo(q, text, "not taken back")
	case askWhich:
		player, picked := q.Player(text)
		if !picked {
			return text == "", nil
		}
		return true, j.scanned(player.String())
	case askStock:
		return j.enter(q.Number, text)
	case askWhy:
		return j.answerWhy(q, text)
	case askTall:
		return j.answerHeights(text)
	case askClock:
		return j.answerClock(q, text)
	case askLook, askSound:
		return j.answerLift(q, text)
	case askBack:
		if q.Inquiry == nil || isScan(text) && q.Inquiry.Picks(text) == 0 {
			j.say("left open")
			return false, nil
		}
		return true, j.told(*q.Inquiry, text)
	}
	return false, nil
}

// isScan tells whether a line is the number of something.
func isScan(text string) bool {
	_, err := inventory.ScannedNumber(text)
	return err == nil
}

// yesOrNo does what was asked about where the answer is yes; an action card can say it,
// too.
func (j *Jig) yesOrNo(q Question, text, otherwise string) (bool, error) {
	if IsYes(text) {
		j.sure = q.Sort != askNamed // who it is says nothing of a second grind
		if len(q.Keys) > 0 {
			j.State.Mine = append(j.State.Mine, q.Keys)
		}
		return true, j.line(q.Line)
	}
	j.say(otherwise)
	return text == "" || isNo(text), nil
}

// IsYes tells whether an answer is yes, typed or scanned from the action card.
func IsYes(text string) bool {
	action, _ := actionOf(text)
	return action == inventory.ActYes || slices.Contains([]string{"y", "yes"}, strings.ToLower(text))
}

func isNo(text string) bool {
	action, _ := actionOf(text)
	return action == inventory.ActNo || slices.Contains([]string{"n", "no"}, strings.ToLower(text))
}

// WhichPlayer asks which of several players is meant.
func WhichPlayer(ambiguous *inventory.Ambiguous) Question {
	q := Question{Sort: askWhich, Text: "which one?"}
	for _, m := range ambiguous.Members {
		q.Choices, q.Players = append(q.Choices, m.Name), append(q.Players, m.Player)
	}
	return q
}

// Player is the player that an answer picks by its number.
func (q Question) Player(answer string) (inventory.Number, bool) {
	choice, err := strconv.Atoi(answer)
	if err != nil || choice < 1 || choice > len(q.Players) {
		return 0, false
	}
	return q.Players[choice-1], true
}
