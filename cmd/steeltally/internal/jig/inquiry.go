package jig

import (
	"slices"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Inquiry asks one thing after the other about an emergency that is over. Enter leaves a
// thing open; where nothing was done there is nothing more to ask.
type Inquiry struct {
	Who  string             `json:"who,omitempty"` // is asked about, where there may be several
	Deed deeds.EndEmergency `json:"deed"`
	Step int                `json:"step"`
	Ways []Way              `json:"ways,omitempty"` // those that were shown, in their order
	Of   []inventory.Number `json:"of,omitempty"`   // one of these helped: which?
}

// Way is a way back onto the ice that was shown.
type Way struct {
	Text string             `json:"text"`
	Did  inventory.Remedy   `json:"did"`
	With []inventory.Number `json:"with"`         // the main thing first
	Else []inventory.Number `json:"or,omitempty"` // what would have done as well as that
}

// Inquire asks about an emergency of which the ways back were shown.
func Inquire(rescue desk.Rescue, deed deeds.EndEmergency) Inquiry {
	i := Inquiry{Deed: deed}
	for _, shown := range rescue.Ways() {
		way := Way{Text: shown.Text + ", " + shown.Numbers[0].Short(), Did: shown.Did(), With: shown.Numbers, Else: shown.OrElse}
		if len(way.Else) > 0 {
			way.Text += " or the like"
		}
		if way.Did == inventory.RemedySteel {
			way.With = way.With[:1] // its runners are in it
		}
		i.Ways = append(i.Ways, way)
	}
	return i
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
		{"what was done?", inventory.Texts(inventory.Remedies()), sayRemedies(), func(d *deeds.EndEmergency, word string) { d.Did = inventory.Remedy(word) }},
		{"what had broken?", []string{deeds.BrokeHolder, deeds.BrokeRunner, deeds.BrokeNothing}, nil, func(d *deeds.EndEmergency, word string) { d.Broke = word }},
		{"how?", inventory.Texts(inventory.Modes()), nil, putMode},
		{"where?", inventory.Texts(inventory.Zones()), nil, func(d *deeds.EndEmergency, word string) { d.Zone = inventory.Zone(word) }},
		{"shifts missed?", nil, nil, putShifts},
	}
}

// sayRemedies says how a player got back; each begins with the word that the record takes.
func sayRemedies() map[string]string {
	return map[string]string{
		string(inventory.RemedySpare): "spare pair", string(inventory.RemedySteel): "steel: another set", string(inventory.RemedyHolder): "holder and steel",
		string(inventory.RemedyNothing): "nothing was broken", string(inventory.RemedyOut): "out for the day",
	}
}

// putMode keeps how something broke. Without it, nothing is said to have broken.
func putMode(d *deeds.EndEmergency, word string) {
	if d.Mode = inventory.Mode(word); word == "" {
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
	text, choices := all[i.Step].text, all[i.Step].choices(i.Step > 0)
	switch {
	case len(i.Of) > 0:
		text, choices = "which one? pick it, or scan it", append(shortOf(i.Of), notKnown)
	case i.Step == 0:
		choices = i.waysAnd(choices)
	}
	if i.Who != "" {
		text = i.Who + ": " + text
	}
	return Question{Sort: askBack, Text: text, Choices: choices}, true
}

// waysAnd puts the ways that were shown before what else can have been done, with the
// numbers that they had.
func (i *Inquiry) waysAnd(remedies []string) []string {
	var choices []string
	for _, way := range i.Ways {
		choices = append(choices, way.Text)
	}
	for at, remedy := range inventory.Remedies() {
		if slices.ContainsFunc(i.Ways, func(way Way) bool { return way.Did == remedy }) {
			remedies[at] = "else: " + remedies[at]
		}
	}
	return append(choices, remedies...)
}

func shortOf(numbers []inventory.Number) []string {
	var short []string
	for _, n := range numbers {
		short = append(short, n.Short())
	}
	return short
}

// answerWay takes the number of a way that was shown, or the word for the only one of its
// sort; what is left of the answer is one of the words, by their own numbers.
func (i *Inquiry) answerWay(text string) (rest string, done bool) {
	if number, err := strconv.Atoi(text); err == nil {
		if number >= 1 && number <= len(i.Ways) {
			i.take(i.Ways[number-1])
			return "", true
		}
		return strconv.Itoa(number - len(i.Ways)), false
	}
	word := inventory.Remedy(pickWord(inventory.Texts(inventory.Remedies()), text))
	ways := slices.DeleteFunc(slices.Clone(i.Ways), func(way Way) bool { return way.Did != word })
	if len(ways) == 0 {
		return text, false
	}
	for _, way := range ways[1:] {
		ways[0].Else = slices.Concat(ways[0].Else, way.With[:1], way.Else)
	}
	i.take(ways[0])
	return "", true
}

func (i *Inquiry) take(way Way) {
	i.Deed.Did, i.Deed.With = way.Did, slices.Clone(way.With)
	if i.Step++; len(way.Else) > 0 {
		i.Of = append(slices.Clone(way.With[:1]), way.Else...)
	}
}

// answerWhich takes which of some alike pieces helped; where that is not known none is.
func (i *Inquiry) answerWhich(text string) bool {
	of, scanned := i.Of, i.Picks(text)
	at := slices.Index(of, scanned)
	if number, err := strconv.Atoi(text); at < 0 && err == nil && number >= 1 && number <= len(of) {
		at = number - 1
	}
	unknown := text == "" || text == strconv.Itoa(len(of)+1) || strings.HasPrefix(notKnown, strings.ToLower(text))
	switch {
	case at >= 0:
		i.Deed.With[0] = of[at]
	case unknown:
		i.Deed.With = nil
	default:
		return false
	}
	i.Of = nil
	return true
}

// Picks is what a scan picks of the pieces that are asked about; zero is none of them.
func (i *Inquiry) Picks(text string) inventory.Number {
	n, err := inventory.ScannedNumber(text)
	if err != nil || !slices.Contains(i.Of, n) {
		return 0
	}
	return n
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
	text = strings.TrimSpace(text)
	if len(i.Of) > 0 {
		return i.answerWhich(text)
	}
	if i.Step == 0 {
		rest, done := i.answerWay(text)
		if done {
			return true
		}
		text = rest
	}
	text, understood := all[i.Step].understand(text, i.Step > 0)
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
