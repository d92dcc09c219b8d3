package inventory

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
