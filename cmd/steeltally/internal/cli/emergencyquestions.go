package cli

import (
	"slices"
	"strconv"
	"strings"

	"steeltally/inventory"
)

// askWhatWasDone asks one question after the other; Enter leaves a thing open. It tells
// whether at least the first was answered.
func (a *app) askWhatWasDone(deed *inventory.EndEmergency, answer func() string) bool {
	deed.Did = a.pickWord(answer, "what was done?", inventory.Remedies())
	if deed.Did == "" {
		return false
	}
	deed.Broke = a.pickWord(answer, "what had broken?", []string{inventory.BrokeHolder, inventory.BrokeRunner, inventory.RemedyNothing})
	if deed.Broke == inventory.BrokeHolder || deed.Broke == inventory.BrokeRunner {
		deed.Mode = a.pickWord(answer, "how?", inventory.Modes())
		if deed.Mode == "" {
			deed.Broke = ""
		} else {
			deed.Zone = a.pickWord(answer, "where?", inventory.Zones())
		}
	}
	a.voice.ask("shifts missed? ")
	if shifts, err := strconv.Atoi(strings.TrimSpace(answer())); err == nil {
		deed.ShiftsMissed = &shifts
	}
	return true
}

// pickWord lets a person pick a word by its number or its beginning; Enter picks none.
func (a *app) pickWord(answer func() string, question string, words []string) string {
	for i, word := range words {
		a.voice.ask("%d %s  ", i+1, word)
	}
	a.voice.ask("\n%s ", question)
	picked := strings.ToLower(strings.TrimSpace(answer()))
	if number, err := strconv.Atoi(picked); err == nil && number >= 1 && number <= len(words) {
		return words[number-1]
	}
	at := slices.IndexFunc(words, func(word string) bool { return picked != "" && strings.HasPrefix(word, picked) })
	if at < 0 {
		return ""
	}
	return words[at]
}
