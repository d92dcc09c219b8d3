package deeds

import (
	"testing"
	"time"

	"steeltally/inventory"
)

// TestRefusedChange keeps when a player was asked, what he said and when to ask again.
func TestRefusedChange(t *testing.T) {
	c := openClubhouse(t)
	review := when(t, "2025-11-12")
	c.refuses("4 09:00", RefuseChange{Player: c.bo, Review: review}, "no set is on")
	c.putIn("3 10:00", c.setA)
	c.refuses("4 09:00", RefuseChange{Player: c.bo}, "still to come")
	c.refuses("4 09:00", RefuseChange{Player: c.bo, Review: when(t, "2025-11-04")}, "still to come")
	c.do("4 09:00", RefuseChange{Player: c.bo, Answer: "likes it low", Review: review})
	bo := c.player(c.bo)
	refusal, ok := bo.RefusalOf(c.setA, at(t, "5 09:00"))
	if !ok || refusal.Value.Answer != "likes it low" || refusal.Value.Review != review || !refusal.When.Start.Equal(at(t, "4 09:00")) {
		t.Errorf("kept: %+v, %v", refusal, ok)
	}
	if _, ok := bo.RefusalOf(c.setA, at(t, "4 08:00")); ok {
		t.Error("a refusal is known before he was asked")
	}
	if _, ok := bo.RefusalOf(c.setB, theNow); ok {
		t.Error("a refusal of one set holds for another")
	}
}

// TestNoAnswerForACrack takes no refusal for steel that nobody may skate on.
func TestNoAnswerForACrack(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 08:00", ReportDamage{Piece: c.left, Mode: "crack"})
	c.refuses("4 09:00", RefuseChange{Player: c.bo, Review: inventory.At(theNow.Add(time.Hour))}, "unsafe")
}
