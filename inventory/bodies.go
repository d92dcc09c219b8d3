package inventory

import (
	"fmt"
	"time"
)

// NewBody is an empty body of a kind, or nil where this version does not know it.
func NewBody(kind string) Body {
	if fresh, known := bodies[kind]; known {
		return fresh()
	}
	return nil
}

// bodies makes an empty body of each kind.
var bodies = map[string]func() Body{
	"club":             func() Body { return &ClubNoted{} },
	"player":           func() Body { return &PlayerNoted{} },
	"specs":            func() Body { return &SpecsNoted{} },
	"model":            func() Body { return &ModelNoted{} },
	"stockin":          func() Body { return &StockedIn{} },
	"pair":             func() Body { return &PairNoted{} },
	"set":              func() Body { return &SetMade{} },
	"put":              func() Body { return &Placed{} },
	"rivet":            func() Body { return &Riveted{} },
	"in":               func() Body { return &PutIn{} },
	"out":              func() Body { return &TakenOut{} },
	"grind":            func() Body { return &Ground{} },
	"measure":          func() Body { return &Measured{} },
	"damage":           func() Body { return &Damaged{} },
	"inspect":          func() Body { return &Inspected{} },
	"refusal":          func() Body { return &Refused{} },
	"session":          func() Body { return &Session{} },
	"correction":       func() Body { return &Correction{} },
	"printed":          func() Body { return &Printed{} },
	"reserved":         func() Body { return &Reserved{} },
	"found":            func() Body { return &FoundOld{} },
	"from-tag":         func() Body { return &KnownFromTag{} },
	"container":        func() Body { return &ContainerNoted{} },
	"clock-doubted":    func() Body { return &ClockDoubted{} },
	"clock-right":      func() Body { return &ClockRight{} },
	"clock-set":        func() Body { return &ClockSet{} },
	"tried":            func() Body { return &Tried{} },
	"skated":           func() Body { return &Skated{} },
	"pitch":            func() Body { return &Pitched{} },
	"rules":            func() Body { return &RulesNoted{} },
	"custody":          func() Body { return &CustodyChanged{} },
	"answer":           func() Body { return &MakerAnswered{} },
	"scrap":            func() Body { return &Scrapped{} },
	"emergency":        func() Body { return &Emergency{} },
	"emergency-done":   func() Body { return &EmergencyDone{} },
	"emergency-closed": func() Body { return &EmergencyClosed{} },
	"trip":             func() Body { return &TripNoted{} },
	"roster":           func() Body { return &Travelling{} },
	"packed":           func() Body { return &Packed{} },
	"loaded":           func() Body { return &Loaded{} },
	"kit":              func() Body { return &KitNoted{} },
	"callup":           func() Body { return &CalledUp{} },
}

// ActionCode is what a scanned action card stands for. The table is fixed: a card once
// printed keeps its meaning.
type ActionCode int

// The actions, by running number.
const (
	ActGrind  ActionCode = 1 // from now on each scan logs the usual grind
	ActLook   ActionCode = 2 // from now on a scan only shows
	ActUndo   ActionCode = 3 // take the last entry back
	ActDone   ActionCode = 4 // the session is over
	ActYes    ActionCode = 5
	ActNo     ActionCode = 6
	ActUsual  ActionCode = 7 // the usual grind for what was scanned
	ActSound  ActionCode = 8 // looked at, sound
	ActLeft1  ActionCode = 9 // one more pass left
	ActRight1 ActionCode = 10
	// something broke on that side: what gets the player back, fastest first
	ActBrokeLeft  ActionCode = 11
	ActBrokeRight ActionCode = 12
	ActChange     ActionCode = 13 // the set in the hand goes on, in place of what is on
)

// ActionCard is one symbol of the action card.
type ActionCard struct {
	Number Number
	Word   string
	Hint   string
}

// Actions lists the action cards in the order of their numbers.
func Actions() []ActionCard {
	words := [...][2]string{
		{"GRIND", "from now on each scan logs the usual grind"},
		{"LOOK", "from now on a scan only shows"},
		{"UNDO", "take the last entry back"},
		{"DONE", "the session is over: who was not logged?"},
		{"YES", ""},
		{"NO", ""},
		{"USUAL", "the usual grind for what was scanned"},
		{"SOUND", "looked at: bolts and rivets are sound"},
		{"LEFT +1", "one more pass left"},
		{"RIGHT +1", "one more pass right"},
		{"BROKE LEFT", "something broke on the left: what helps, fastest first"},
		{"BROKE RIGHT", "something broke on the right: what helps, fastest first"},
		{"CHANGE", "the set in the hand goes on, in place of what is on"},
	}
	cards := make([]ActionCard, len(words))
	for i, w := range words {
		cards[i] = ActionCard{assemble(KindAction, 0, i+1), w[0], w[1]}
	}
	return cards
}

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
