package inventory

import (
	"slices"
	"strings"
)

const (
	WorkGrind     = "grind"
	WorkNewHollow = "new-hollow"
	WorkProfile   = "profile"
	WorkNick      = "nick"
	WorkHone      = "hone"
)

// Mode is how a piece is damaged.
type Mode string

// Modes of which more is said than their word.
const (
	ModeCrack   Mode = "crack"
	ModeBreak   Mode = "break"
	ModeBend    Mode = "bend"
	ModeChip    Mode = "chip"
	ModeOther   Mode = "other"
	modeSuspect Mode = "suspect" // nobody has seen it yet
	// ModeScrapped is what was thrown away.
	ModeScrapped Mode = "scrapped"
)

// ForbidsUse tells whether nobody skates on a piece that is damaged so.
func (m Mode) ForbidsUse() bool { return m == ModeCrack || m == ModeBreak || m == ModeBend }

// Zone is where along the skate a piece is damaged.
type Zone string

// ZoneUnknown is that nobody knows where.
const ZoneUnknown Zone = "unknown"

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

// The words that the record takes. They are the trade's (common practice, no
// source); a word once in use stays readable for ever.
var (
	positions = []string{"goalkeeper", "defence", "forward"}
	roles     = []Role{RoleFirst, RoleSpare, RoleThird, RoleKept}
	reasons   = []string{"low", "broken", "cracked", "bent", "chipped", "rotate", "hollow", "trial", "recall", "other"}
	works     = []string{WorkGrind, WorkNewHollow, WorkProfile, WorkNick, WorkHone}
	modes     = []Mode{ModeCrack, ModeBreak, ModeBend, ModeChip, "loose-rivet", "loose-bolt", "rust", "wear", ModeOther}
	zones     = []Zone{"toe", "front-tower", "middle", "bridge", "rear-tower", "heel", "edge", "clamp", ZoneUnknown}
	faces     = []string{"inner", "outer", "both", "unknown"}
	causes    = []string{"puck", "stick", "skate", "fall", "boards", "grinding", "fatigue", "fitting", "unknown"}
	found     = []string{"practice", "game", "grinding", "inspection", "change", "travel", "unknown"}
	custodies = []string{CustodyClub, CustodyPlayer, "national", "farm", "loan", CustodyRepairer, CustodyMaker, CustodyTraded}
	decisions = []string{"open", "replace", "credit", "repair", "refuse", DecisionSettled}
	remedies  = []string{RemedySpare, RemedySteel, RemedyHolder, RemedyBorrowed, RemedyMended, RemedyNothing, RemedyOut}
	unknowns  = []string{"family", "size", "hollow", "profile", "pitch", "steel"}
)

// Positions lists what a player can be.
func Positions() []string { return slices.Clone(positions) }

// Roles lists what a pair can be to its player.
func Roles() []Role { return slices.Clone(roles) }

// Reasons lists why steel comes off.
func Reasons() []string { return slices.Clone(reasons) }

// Works lists the kinds of work at the wheel.
func Works() []string { return slices.Clone(works) }

// Modes lists how a piece can be damaged.
func Modes() []Mode { return slices.Clone(modes) }

// Zones lists where along the skate, toe to heel.
func Zones() []Zone { return slices.Clone(zones) }

// Faces lists which side of the piece, seen from the other foot.
func Faces() []string { return slices.Clone(faces) }

// Causes lists what did it.
func Causes() []string { return slices.Clone(causes) }

// FoundWhen lists the occasions at which damage is found.
func FoundWhen() []string { return slices.Clone(found) }

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

// List writes words one after another: "first, spare".
func List[T ~string](words []T) string { return strings.Join(Texts(words), ", ") }

// Texts are words as texts.
func Texts[T ~string](words []T) []string {
	texts := make([]string, len(words))
	for i, word := range words {
		texts[i] = string(word)
	}
	return texts
}

// Quoted is a name as it is typed on a command line.
func Quoted(name string) string {
	if strings.ContainsAny(name, " '\"") {
		return `"` + name + `"`
	}
	return name
}
