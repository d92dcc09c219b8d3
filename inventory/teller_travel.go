package inventory

import (
	"fmt"
	"strings"
)

// lineOfTravel tells of spare pairs, of who has a piece, and of emergencies.
func (t Teller) lineOfTravel(e *Event) string {
	switch b := e.Body.(type) {
	case *Tried:
		return t.tried(b)
	case *Skated:
		return t.skated(b)
	case *Pitched:
		return "pair " + b.Pair.Short() + ": " + SayPitch(b.Pitch)
	case *RulesNoted:
		return "spare pairs: " + b.String()
	case *CustodyChanged:
		return t.custody(b)
	case *MakerAnswered:
		return withNote(fmt.Sprintf("answer about %s: %s%s", sayPieces(b.Pieces), b.Decision, t.due(b.Due)), b.Note)
	case *Scrapped:
		return withNote("scrapped: "+sayPieces(b.Pieces), b.Reason)
	case *Emergency:
		return t.emergency(b)
	case *EmergencyDone:
		return emergencyDone(b)
	case *EmergencyClosed:
		return withNote("emergency mended for good", b.Note)
	}
	return t.lineOfTrips(e)
}

func (t Teller) lineOfTrips(e *Event) string {
	switch b := e.Body.(type) {
	case *TripNoted:
		zone := ClubOf(t.View).Location()
		return fmt.Sprintf("trip %s, %s to %s", clipName(b.Trip), b.From.SayDay(zone), b.To.SayDay(zone))
	case *Travelling:
		return t.travelling(b)
	case *Packed:
		return t.packed(b)
	case *Loaded:
		return fmt.Sprintf("trip %s, %s, trunks counted: %d", clipName(b.Trip), OrDash(b.Leg), len(b.Trunks))
	case *KitNoted:
		return fmt.Sprintf("kit %s: at least %d", clipName(b.Kit), b.Least)
	case *CalledUp:
		return t.calledUp(b)
	}
	return "an entry of a newer program: " + Clip(e.Body.Kind())
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

func (t Teller) tried(b *Tried) string {
	line := "tried " + t.pair(b.Pair)
	if b.Declined {
		line += ", would rather not"
	}
	return withNote(line, b.Note)
}

func (t Teller) skated(b *Skated) string {
	what := "a practice on "
	if b.Game {
		what = "a game on "
	}
	return what + t.pair(b.Pair) + ", " + t.set(b.Set)
}

// String is what was set, in words.
func (r SpareRules) String() string {
	var parts []string
	if r.HeightWithin != nil {
		parts = append(parts, "height within "+r.HeightWithin.String())
	}
	if r.TriedDays != nil {
		parts = append(parts, fmt.Sprintf("tried within %d days", *r.TriedDays))
	}
	if r.LookedDays != nil {
		parts = append(parts, fmt.Sprintf("looked at within %d days", *r.LookedDays))
	}
	if r.Sets != nil {
		parts = append(parts, fmt.Sprintf("%d ready sets", *r.Sets))
	}
	for _, fix := range r.Minutes {
		parts = append(parts, fmt.Sprintf("%s %d min", fix.Fix, fix.Minutes))
	}
	return OrDash(clipName(strings.Join(parts, ", ")))
}

func (t Teller) custody(b *CustodyChanged) string {
	custody := Custody{Custody: b.Custody, With: b.With, Reference: b.Reference}
	return withNote(sayPieces(b.Pieces)+" "+custody.String()+t.due(b.Due), b.Note)
}

func (t Teller) due(due When) string {
	if due.Unknown() {
		return ""
	}
	return ", due " + due.SayDay(ClubOf(t.View).Location())
}

func (t Teller) emergency(b *Emergency) string {
	line := fmt.Sprintf("emergency, %s, %s side", t.pair(b.Pair), OrDash(string(b.Side)))
	if len(b.Suspects) > 0 {
		line += ": " + sayPieces(b.Suspects) + " not to be skated on until somebody looked"
	}
	return line
}

func emergencyDone(b *EmergencyDone) string {
	line := "back on the ice: " + b.Did
	if b.Did == RemedyNothing {
		line = "back on the ice, nothing was broken"
	}
	if b.Did == RemedyOut {
		line = "did not come back"
	}
	if len(b.With) > 0 {
		line += " " + sayPieces(b.With)
	}
	if b.Minutes != nil {
		line += ", " + sayMinutes(*b.Minutes)
	}
	if b.ShiftsMissed != nil {
		line += fmt.Sprintf(", shifts missed: %d", *b.ShiftsMissed)
	}
	if b.Temporary {
		line += ", for the moment"
	}
	return withNote(line, b.Note)
}

func (t Teller) travelling(b *Travelling) string {
	names := make([]string, len(b.Players))
	for i, n := range b.Players {
		names[i] = t.player(n)
	}
	who := "come along"
	if b.Stay {
		who = "stay at home"
	}
	return clipName(fmt.Sprintf("trip %s, %s: %s", b.Trip, who, strings.Join(names, ", ")))
}

func (t Teller) packed(b *Packed) string {
	verb, where := "packed", "in no trunk"
	if b.Out {
		verb, where = "unpacked", "from no trunk"
	}
	if b.Trunk != 0 {
		where = ContainerName(t.View, b.Trunk)
	}
	var parts []string
	if len(b.Pieces) > 0 {
		parts = append(parts, sayPieces(b.Pieces))
	}
	for _, kit := range b.Kits {
		parts = append(parts, fmt.Sprintf("%d %s", kit.Count, kit.Kit))
	}
	return clipName(fmt.Sprintf("trip %s, %s, %s: %s", b.Trip, verb, where, strings.Join(parts, ", ")))
}

func (t Teller) calledUp(b *CalledUp) string {
	line := "called up " + t.player(b.Player)
	if b.Family != "" {
		line += ", holders " + b.Family
	}
	for side, size := range b.Sizes.Each {
		line += fmt.Sprintf(", %s %d", side, *size)
	}
	if len(b.Ask) > 0 {
		line += ", to be asked: " + strings.Join(b.Ask, ", ")
	}
	return clipName(line)
}
