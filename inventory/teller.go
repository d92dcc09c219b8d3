package inventory

import (
	"fmt"
	"strings"
)

// Teller says in a line of plain words what an event recorded.
type Teller struct{ View View }

// Line is the event in words, without its time: "grind on set A: left 5, right 5".
func (t Teller) Line(e *Event) string { return e.Body.line(t, e) }

func (f *Foreign) line(Teller, *Event) string { return "an entry of a newer program: " + Clip(f.Name) }

func (t Teller) set(n Number) string {
	if set, ok := t.View.Entity(RefOf(n)).(*Set); ok && set.Letter != "" {
		return "set " + set.Letter
	}
	if n == 0 {
		return "steel"
	}
	return "set " + n.Short()
}

func (t Teller) pair(n Number) string {
	if n == 0 {
		return "a loose holder"
	}
	if pair, ok := t.View.Entity(RefOf(n)).(*Pair); ok {
		return t.player(pair.Player) + "'s pair " + n.Short()
	}
	return "pair " + n.Short()
}

func (t Teller) player(n Number) string {
	if player, ok := t.View.Entity(RefOf(n)).(*Player); ok && player.Name != "" {
		return player.Name
	}
	return n.Short()
}

// OrDash is a word, or a dash where there is none.
func OrDash(word string) string {
	if word == "" {
		return "–"
	}
	return word
}

// withNote adds what a person wrote, where there is something.
func withNote(line, note string) string {
	if note == "" {
		return line
	}
	return line + ", " + clipName(note)
}

// clipName is a name on one line.
func clipName(name string) string { return strings.Join(strings.Fields(name), " ") }

const mostSaidPieces = 6

// sayPieces lists pieces, or how many there are.
func sayPieces(pieces []Number) string {
	if len(pieces) > mostSaidPieces {
		return fmt.Sprintf("%d pieces", len(pieces))
	}
	words := make([]string, len(pieces))
	for i, n := range pieces {
		words[i] = n.Short()
	}
	return strings.Join(words, ", ")
}
