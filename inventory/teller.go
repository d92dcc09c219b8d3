package inventory

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Teller says in a line of plain words what an event recorded.
type Teller struct{ View View }

// Line is the event in words, without its time: "grind on set A: left 5, right 5".
func (t Teller) Line(e *Event) string {
	switch b := e.Body.(type) {
	case *Ground:
		return t.ground(b)
	case *Measured:
		return t.measured(b)
	case *PutIn:
		return movedOf(t.set(b.Set), &b.Both) + " on " + t.pair(b.Pair)
	case *TakenOut:
		return t.takenOut(b)
	case *Riveted:
		return t.riveted(b)
	case *Damaged:
		return damaged(b)
	case *Inspected:
		return inspected(b)
	}
	return t.lineOfStock(e)
}

func (t Teller) lineOfStock(e *Event) string {
	switch b := e.Body.(type) {
	case *StockedIn:
		return stockedIn(b)
	case *SetMade:
		return fmt.Sprintf("set %s made: left %s, right %s", b.Letter, b.Left.Short(), b.Right.Short())
	case *PairNoted:
		return fmt.Sprintf("pair %s is %s's %s pair", b.Pair.Short(), t.player(b.Player), b.Role)
	case *Refused:
		return t.refused(b)
	case *Placed:
		return "put at " + b.Place.String()
	case *Correction:
		return corrected(b)
	}
	return t.lineOfClub(e)
}

func (t Teller) lineOfClub(e *Event) string {
	switch b := e.Body.(type) {
	case *ClubNoted:
		return fmt.Sprintf("book of %s, %s, station %d", b.Name, b.Zone, b.Station)
	case *PlayerNoted:
		return playerNoted(b)
	case *SpecsNoted:
		return "specs: " + (&Specs{b.Hollow, b.Profile, b.Pitch, b.Passes, b.ChangeHeight}).String()
	case *ModelNoted:
		return fmt.Sprintf("model %s declared: %s, family %s, held by %s", b.Name, b.Piece, OrDash(b.Family), OrDash(b.Attachment))
	case *Session:
		return SaySession(b)
	}
	return t.lineOfTags(e)
}

func (t Teller) lineOfTags(e *Event) string {
	switch b := e.Body.(type) {
	case *Printed:
		return printed(b)
	case *Reserved:
		return fmt.Sprintf("%d numbers kept for blank %s tags", b.Count, b.Piece)
	case *FoundOld:
		return t.foundOld(b)
	case *KnownFromTag:
		return t.fromTag(b)
	case *ContainerNoted:
		return fmt.Sprintf("%s %s is %s", b.Container.Kind(), b.Container.Short(), b.Name)
	}
	if line := t.lineOfClock(e); line != "" {
		return line
	}
	return t.lineOfTravel(e)
}

func (t Teller) ground(b *Ground) string {
	line := b.Work + " on " + t.set(b.Set) + sayBoth(b)
	if b.More {
		line = "more " + line
	}
	if b.Hollow != nil {
		line += ", " + b.Hollow.String()
	}
	if b.By != "" {
		line += ", by " + b.By
	}
	return line
}

// sayBoth writes the passes of both sides; honing has none to count.
func sayBoth(b *Ground) string {
	var parts []string
	for side, passes := range b.Each {
		if b.Work == WorkHone && passes.Passes == nil {
			continue
		}
		parts = append(parts, string(side)+" "+sayPasses(passes.Passes))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

func sayPasses(passes *int) string {
	if passes == nil {
		return "unknown"
	}
	return fmt.Sprint(*passes)
}

func (t Teller) measured(b *Measured) string {
	parts := make([]string, len(b.Heights))
	for i, h := range b.Heights {
		parts[i] = OrDash(string(h.Side)) + " " + sayHeight(h)
	}
	return fmt.Sprintf("height (%s): %s", b.Reference, strings.Join(parts, ", "))
}

func sayHeight(h Height) string {
	if h.Middle == nil {
		return "unknown"
	}
	if h.Toe == nil || h.Heel == nil {
		return h.Middle.String()
	}
	return fmt.Sprintf("%.2f/%.2f/%.2f mm", float64(*h.Toe), float64(*h.Middle), float64(*h.Heel))
}

// movedOf is what of a set went on or came off: all of it, or one side.
func movedOf[T any](set string, moved *Both[T]) string {
	switch {
	case moved.Left != nil && moved.Right == nil:
		return "left runner of " + set
	case moved.Right != nil && moved.Left == nil:
		return "right runner of " + set
	}
	return set
}

func (t Teller) takenOut(b *TakenOut) string {
	line := movedOf(t.set(b.Set), &b.Both) + " off " + t.pair(b.Pair) + ", " + b.Reason
	for side, removal := range b.Each {
		if removal.Retired {
			line += fmt.Sprintf(", %s %s done with", side, removal.Runner.Short())
		}
	}
	return line
}

func (t Teller) riveted(b *Riveted) string {
	if b.Off {
		return fmt.Sprintf("holder %s off the %s boot of %s", b.Holder.Short(), b.Side, b.Pair.Short())
	}
	return fmt.Sprintf("holder %s on the %s boot of %s", b.Holder.Short(), b.Side, b.Pair.Short())
}

func damaged(b *Damaged) string {
	line := b.Piece.Short() + " " + string(b.Mode)
	for _, word := range []string{string(b.Zone), b.Face, b.Cause, b.Note} {
		if word != "" {
			line += ", " + word
		}
	}
	if b.ShiftsMissed != nil {
		line += fmt.Sprintf(", shifts missed: %d", *b.ShiftsMissed)
	}
	if b.Minutes != nil {
		line += ", took " + sayMinutes(*b.Minutes)
	}
	if len(b.Photos) > 0 {
		line += fmt.Sprintf(", photographs: %d", len(b.Photos))
	}
	if b.Unsafe {
		line += ": DO NOT SKATE"
	}
	return line
}

func inspected(b *Inspected) string {
	if b.Sound {
		return strings.TrimSuffix("looked at, sound; "+b.Note, "; ")
	}
	return strings.TrimSuffix("looked at, not sound; "+b.Note, "; ")
}

func stockedIn(b *StockedIn) string {
	line := fmt.Sprintf("stock in: %s %d", b.Model, b.Size)
	if b.Height != nil {
		line += ", " + b.Height.String() + " high"
	}
	if b.Lot != "" {
		line += ", lot " + b.Lot
	}
	return line
}

func corrected(b *Correction) string {
	switch {
	case len(b.Voids) > 0 && b.Words != "":
		return fmt.Sprintf("correction, %d taken back: %s", len(b.Voids), b.Words)
	case len(b.Voids) > 0:
		return fmt.Sprintf("correction, %d taken back", len(b.Voids))
	}
	if len(b.Keeps) == 1 {
		return "it is right: " + OrDash(b.Words)
	}
	return "both are right: " + OrDash(b.Words)
}

func playerNoted(b *PlayerNoted) string {
	line := "player " + b.Name + ", " + b.Position
	if b.Sweater != 0 {
		line += fmt.Sprintf(", sweater %d", b.Sweater)
	}
	if b.Gone {
		line += ", left the club"
	}
	return line
}

// SaySession says what a session is, such as a game and against whom.
func SaySession(b *Session) string {
	if !b.Game {
		return strings.TrimSpace("practice " + b.Note)
	}
	if b.Away {
		return "game at " + b.Opponent
	}
	return "game against " + b.Opponent
}

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

// String is the specs in one line; what was never said is left out.
func (s *Specs) String() string {
	var parts []string
	if s.Hollow != nil {
		parts = append(parts, s.Hollow.String())
	}
	if s.Profile != nil {
		parts = append(parts, s.Profile.String())
	}
	if s.Pitch != nil {
		parts = append(parts, SayPitch(*s.Pitch))
	}
	if s.Passes != nil {
		parts = append(parts, fmt.Sprintf("%d passes", *s.Passes))
	}
	if s.ChangeHeight != nil {
		parts = append(parts, "change at "+s.ChangeHeight.String())
	}
	if len(parts) == 0 {
		return "no specs yet"
	}
	return strings.Join(parts, ", ")
}

// OrDash is a word, or a dash where there is none.
func OrDash(word string) string {
	if word == "" {
		return "–"
	}
	return word
}

// sayMinutes writes minutes to a hundredth, as somebody would note them.
func sayMinutes(minutes float64) string {
	return strconv.FormatFloat(math.Round(minutes*100)/100, 'f', -1, 64) + " min"
}

func (t Teller) refused(b *Refused) string {
	zone := ClubOf(t.View).Location()
	return fmt.Sprintf("asked to change %s, answer: %s; ask again %s", t.set(b.Set), b.Answer, b.Review.SayDay(zone))
}
