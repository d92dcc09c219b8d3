package jig

import (
	"slices"
	"strconv"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Inquiry asks one thing after the other about an emergency that is over. Enter leaves a
// thing open; where nothing was done there is nothing more to ask.
type Inquiry struct {
	Who  string             `json:"who,omitempty"` // is asked about, where there may be several
	Deed deeds.EndEmergency `json:"deed"`
	Step int                `json:"step"`
}

// step is one question, with where its answer goes; shifts are asked for without words
// to choose from. What a word means is said in says, where it needs more.
type step struct {
	text  string
	words []string
	says  map[string]string
	put   func(deed *deeds.EndEmergency, answer string)
}

func steps() []step {
	return []step{
		{"what was done?", inventory.Remedies(), sayRemedies(), func(d *deeds.EndEmergency, word string) { d.Did = word }},
		{"what had broken?", []string{deeds.BrokeHolder, deeds.BrokeRunner, inventory.RemedyNothing}, nil, func(d *deeds.EndEmergency, word string) { d.Broke = word }},
		{"how?", inventory.Modes(), nil, putMode},
		{"where?", inventory.Zones(), nil, func(d *deeds.EndEmergency, word string) { d.Zone = word }},
		{"shifts missed?", nil, nil, putShifts},
	}
}

// sayRemedies says how a player got back; each begins with the word that the record takes.
func sayRemedies() map[string]string {
	return map[string]string{
		inventory.RemedySpare: "spare pair", inventory.RemedySteel: "steel: another set", inventory.RemedyHolder: "holder and steel",
		inventory.RemedyNothing: "nothing was broken", inventory.RemedyOut: "out for the day",
	}
}

// putMode keeps how something broke. Without it, nothing is said to have broken.
func putMode(d *deeds.EndEmergency, word string) {
	if d.Mode = word; word == "" {
		d.Broke = ""
	}
}

func putShifts(d *deeds.EndEmergency, answer string) {
	if shifts, err := strconv.Atoi(answer); err == nil {
		d.ShiftsMissed = &shifts
	}
}

// Ask is the next question, and whether there is one.
func (i *Inquiry) Ask() (Question, bool) {
	all := steps()
	if i.Step < 0 || i.Step >= len(all) || i.Step > 0 && i.Deed.Did == "" {
		return Question{}, false
	}
	text := all[i.Step].text
	if i.Who != "" {
		text = i.Who + ": " + text
	}
	return Question{Sort: askBack, Text: text, Choices: all[i.Step].choices(i.Step > 0)}, true
}

// choices are what a person picks from; not knowing is an answer to all but the first.
func (s step) choices(orNotKnown bool) []string {
	var choices []string
	for _, word := range s.words {
		if says := s.says[word]; says != "" {
			word = says
		}
		choices = append(choices, word)
	}
	if orNotKnown && choices != nil {
		choices = append(choices, notKnown)
	}
	return choices
}

// Answer takes the answer to the question that was asked last, and tells whether it was
// one; nothing is one, too.
func (i *Inquiry) Answer(text string) bool {
	all := steps()
	if i.Step < 0 || i.Step >= len(all) {
		return false
	}
	text, understood := all[i.Step].understand(strings.TrimSpace(text), i.Step > 0)
	if !understood {
		return false
	}
	all[i.Step].put(&i.Deed, text)
	i.Step++
	if broke := i.Deed.Broke; i.Step == 2 && broke != deeds.BrokeHolder && broke != deeds.BrokeRunner || i.Step == 3 && i.Deed.Mode == "" {
		i.Step = len(all) - 1
	}
	return true
}

// mostShifts is more than anybody misses before he is out for the day.
const mostShifts = 15

// understand reads an answer: a word by its number or its beginning, that it is not
// known, or a number of shifts.
func (s step) understand(text string, orNotKnown bool) (answer string, understood bool) {
	if s.words == nil {
		shifts, err := strconv.Atoi(text)
		return text, text == "" || err == nil && shifts >= 0 && shifts <= mostShifts
	}
	if word := pickWord(s.words, text); word != "" {
		return word, true
	}
	number, _ := strconv.Atoi(text)
	unknown := orNotKnown && (number == len(s.words)+1 || text != "" && strings.HasPrefix(notKnown, strings.ToLower(text)))
	return "", text == "" || unknown
}

// notKnown is the answer of who did not see it.
const notKnown = "not known"

// pickWord is the word that was picked by its number or its beginning; else none.
func pickWord(words []string, picked string) string {
	picked = strings.ToLower(picked)
	if number, err := strconv.Atoi(picked); err == nil && number >= 1 && number <= len(words) {
		return words[number-1]
	}
	at := slices.IndexFunc(words, func(word string) bool { return picked != "" && strings.HasPrefix(word, picked) })
	if at < 0 {
		return ""
	}
	return words[at]
}
