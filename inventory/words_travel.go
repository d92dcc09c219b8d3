package inventory

import "slices"

// Who can have a piece.
const (
	CustodyClub     = "club"
	CustodyPlayer   = "player"
	CustodyRepairer = "repairer"
	CustodyMaker    = "maker"
	CustodyTraded   = "traded"
)

// DecisionSettled is the answer of a maker that came to its end.
const DecisionSettled = "settled"

// The legs of a trip.
const (
	LegOut  = "out"
	LegBack = "back"
)

// Role is what a pair is to its player.
type Role string

// The roles. A player has one pair in each, and as many kept ones as there are: those
// travel no more.
const (
	RoleFirst Role = "first"
	RoleSpare Role = "spare"
	RoleThird Role = "third"
	RoleKept  Role = "kept"
)

// Pair names a pair by its role: "spare pair".
func (r Role) Pair() string { return string(r) + " pair" }

// How a player gets back on the ice.
const (
	RemedySpare    = "spare"
	RemedySteel    = "steel"
	RemedyHolder   = "holder"
	RemedyBorrowed = "borrowed"
	RemedyMended   = "mended"
	RemedyNothing  = "nothing"
	RemedyOut      = "out"
)

// The words that the record takes; a word once in use stays readable for ever.
var (
	custodies = []string{CustodyClub, CustodyPlayer, "national", "farm", "loan", CustodyRepairer, CustodyMaker, CustodyTraded}
	decisions = []string{"open", "replace", "credit", "repair", "refuse", DecisionSettled}
	remedies  = []string{RemedySpare, RemedySteel, RemedyHolder, RemedyBorrowed, RemedyMended, RemedyNothing, RemedyOut}
	unknowns  = []string{"family", "size", "hollow", "profile", "pitch", "steel"}
)

// Custodies lists who can have a piece; club is back at home.
func Custodies() []string { return slices.Clone(custodies) }

// Decisions lists what a maker can answer; settled is that it was received.
func Decisions() []string { return slices.Clone(decisions) }

// Remedies lists how a player gets back on the ice: on his spare pair, on other steel,
// on another holder, on borrowed ones, after mending, without anything broken; or out
// for the day.
func Remedies() []string { return slices.Clone(remedies) }

// Unknowns lists what a player who is called up can be asked.
func Unknowns() []string { return slices.Clone(unknowns) }

// SayCustody says who has a piece.
func SayCustody(word string) string {
	switch word {
	case CustodyClub:
		return "with the club"
	case CustodyPlayer:
		return "at the player's home"
	case "national":
		return "with the national team"
	case "farm":
		return "with the farm club"
	case "loan":
		return "lent"
	case CustodyTraded:
		return "gone with the player"
	}
	return "with the " + word
}
