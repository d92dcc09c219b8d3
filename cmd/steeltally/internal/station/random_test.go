package station

import (
	"bytes"
	"cmp"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// Two windows get lines in any order, answers get lost and lines are sent again. Each
// line is recorded once at most, and what a window takes back it recorded itself.
func TestTwoWindowsAtRandom(t *testing.T) {
	corrections := 0
	for seed := range uint64(6) {
		s := newStand(t)
		random := rand.New(rand.NewPCG(seed, 1))
		windows := map[string]talk{"A": {}, "B": {}}
		for i := range 150 {
			s.now = s.now.Add(time.Duration(random.IntN(300)) * time.Second)
			name := []string{"A", "B"}[random.IntN(2)]
			window := windows[name]
			line := anyLine(random)
			if line == "u" && len(window.Mine) == 0 {
				continue // it would be the book's last entry, whoever recorded that
			}
			key := name + " " + numeral(i)
			said := s.say(key, line, window)
			if random.IntN(4) == 0 { // the answer was lost
				said = s.say(key, line, window)
			}
			if random.IntN(10) == 0 {
				said = s.part(said.Talk)
			}
			windows[name] = said.Talk
		}
		corrections += s.checkTickets(name(seed))
	}
	if corrections < 20 {
		t.Errorf("only %d corrections were looked at", corrections)
	}
}

func name(seed uint64) string { return "seed " + numeral(int(seed)) }

// anyLine is what a person may scan or type at the jig.
func anyLine(random *rand.Rand) string {
	lines := []string{
		"17", "17", "23", "23", "S1-2-69", "S1-1-72", playerRunner.Short(), "H1-1-43", "", "", "", "l1", "r2", "b6", "x", "u", "u", "u", "u", "c", "c B rotate", "c A rotate",
		"m", "m 11.1 11.0", "11.20", "11.10", "i", "g", "er", "el", "ed", "1", "2", "6", "7", "y", "n", "nothing", "h", "q", "zzz", "4006381333931",
	}
	return lines[random.IntN(len(lines))]
}

// checkTickets looks at the record: each line's action is there once, corrections are
// about their own window's entries. It tells how many of those there were.
func (s *stand) checkTickets(what string) (corrections int) {
	s.t.Helper()
	tickets := map[inventory.Key]string{}
	actions := map[string]int{}
	var action []inventory.Event // one of its events has the ticket
	for line := range bytes.Lines(s.exported()) {
		var e inventory.Event
		must(s.t, json.Unmarshal(line, &e))
		if action = append(action, e); e.More > 0 {
			continue
		}
		ticket := ""
		for _, part := range action {
			ticket = cmp.Or(ticket, part.Ticket)
		}
		for _, part := range action {
			tickets[part.Key] = ticket
		}
		action = nil
		if ticket != "" {
			actions[ticket]++
		}
		for _, voided := range inventory.Voids(&e) {
			corrections++
			if window, _, _ := strings.Cut(ticket, " "); !strings.HasPrefix(tickets[voided], window+" ") {
				s.t.Errorf("%s: %q took back what %q recorded", what, ticket, tickets[voided])
			}
		}
	}
	for ticket, times := range actions {
		if times > 1 {
			s.t.Errorf("%s: %q was recorded %d times", what, ticket, times)
		}
	}
	return corrections
}
