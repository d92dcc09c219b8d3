package desk

import (
	"fmt"
	"strconv"

	"steeltally/inventory"
	"steeltally/templates"
)

// knownContent is the tag of a piece of which only its earlier tag is known: the same
// once more, fields of later versions included.
func (d *Desk) knownContent(tag *inventory.TagFacts, c *templates.Content) {
	c.DateOff, c.Reason = sayTagDate(tag.Out, d.zone), string(tag.Reason)
	c.Sweater = unlessZero(tag.Sweater)
	if tag.New != nil {
		c.HeightNew = tag.New.String()
	}
	if tag.Final != nil {
		c.HeightFinal = tag.Final.String()
	}
	if tag.Hollow != nil {
		c.Hollow = tag.Hollow.String()
	}
	c.Tally = tag.Tally(d.zone).String()
}

// markedContent is the tag of an old piece: what the marker pen wrote, as it stands.
func markedContent(found *inventory.OldInscription, c *templates.Content, tally *inventory.Tally) {
	c.Reason = "marked " + found.Text
	tally.Reason, tally.Sweater = "", found.Sweater
	c.Sweater = unlessZero(found.Sweater)
}

// unlessZero writes a number that is there.
func unlessZero(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// saySize writes a length as the maker marks it, or nothing where it is not known.
func saySize(size int) string { return unlessZero(size) }

// actionContent is one symbol of the action card.
func actionContent(n inventory.Number, c *templates.Content) error {
	for _, action := range inventory.Actions() {
		if action.Number == n {
			c.Word, c.Hint = action.Word, action.Hint
			return nil
		}
	}
	return &inventory.Refusal{Reason: fmt.Sprintf("there is no action %s", n.Short()), Hint: "steeltally tag --actions prints the card with all of them"}
}
