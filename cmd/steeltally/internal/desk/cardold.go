package desk

import (
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// describe names a runner or holder with what is known of it: "runner R1-1-77, Skua R
// 280 left".
func describe(n inventory.Number, model string, size int, side inventory.Side) string {
	about := strings.Join(strings.Fields(fmt.Sprint(model, " ", saySize(size), " ", side)), " ")
	if about == "" {
		return fmt.Sprintf("%s %s", n.Kind(), n.Short())
	}
	return fmt.Sprintf("%s %s, %s", n.Kind(), n.Short(), about)
}

// ofOld says of a runner that is in no set where its record comes from and whose it
// was, where only a tag or a marker pen tells.
func (d *Desk) ofOld(v inventory.View, runner *inventory.Runner, at time.Time) string {
	said := ""
	switch {
	case runner.KnownTag() != nil:
		said = ", known from its tag"
	case runner.Found != nil:
		said = fmt.Sprintf(", marked %q", runner.Found.Text)
		if strokes := inventory.SayStrokes(runner.Found.Text); strokes != "" {
			said += ", " + strokes
		}
	default:
		return ""
	}
	for _, stint := range runner.Stints(at) {
		if player, err := inventory.PlayerOf(v, stint.Player); err == nil {
			return said + ", was on " + heading(player, at)
		}
	}
	return said
}

// staleTag says of a scanned tag that describes itself that it is not the piece's
// present one. A number alone can't tell.
func staleTag(v inventory.View, text string, at time.Time) string {
	tally, err := inventory.ParseTally(inventory.AsScanned(text))
	if err != nil {
		return ""
	}
	state := standing.StateOf(v, tally.Piece, at)
	if state == "" {
		return ""
	}
	if generation := generationOf(v, tally.Piece, at); tally.Generation < generation || state != inventory.Removed {
		return "STALE TAG: the piece was put back in use since; throw this tag away"
	}
	return ""
}

// containerCard is what lies in a trunk or bin.
func containerCard(v inventory.View, n inventory.Number, at time.Time) (Card, error) {
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return Card{}, err
	}
	card := Card{Number: n, Title: fmt.Sprintf("%s %s: %s", n.Kind(), n.Short(), container.Name)}
	card.Lines = contentsOf(v, container.Name, at)
	if len(card.Lines) == 0 {
		card.Lines = []string{"nothing lies in it"}
	}
	if place := standing.PlaceOf(v, container.Number, at); place.Name != "" {
		card.Lines = append(card.Lines, "at "+place.String())
	}
	return card, nil
}
