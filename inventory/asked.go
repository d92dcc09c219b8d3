package inventory

import (
	"fmt"
	"time"
)

// Refused is a player who was asked to change and would not. The event's time is when
// he was asked.
type Refused struct {
	Player Number `json:"player"`
	Pair   Number `json:"pair"`
	Set    Number `json:"set"`    // what was on and stays on
	Answer string `json:"answer"` // in his words
	Review When   `json:"review"` // when to ask again
}

// Kind is the word in the record.
func (*Refused) Kind() string { return "refusal" }

// Touches names the player, the pair and the set.
func (b *Refused) Touches() []Ref { return numbered(b.Player, b.Pair, b.Set) }

func (b *Refused) line(t Teller, _ *Event) string {
	zone := ClubOf(t.View).Location()
	return fmt.Sprintf("asked to change %s, answer: %s; ask again %s", t.set(b.Set), b.Answer, b.Review.SayDay(zone))
}

// RefusalOf is the player's last no about a set that he had said at an instant.
func (p *Player) RefusalOf(set Number, at time.Time) (Dated[Refused], bool) {
	refusals := p.Refusals.Until(at)
	for i := len(refusals) - 1; i >= 0; i-- {
		if refusals[i].Value.Set == set {
			return refusals[i], true
		}
	}
	return Dated[Refused]{}, false
}
