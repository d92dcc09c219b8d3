package inventory

import (
	"cmp"
	"slices"
	"strings"
)

// WorkKind is what is done at the wheel.
type WorkKind string

// The kinds of work.
const (
	WorkGrind     WorkKind = "grind"
	WorkNewHollow WorkKind = "new-hollow"
	WorkProfile   WorkKind = "profile"
	WorkNick      WorkKind = "nick"
	WorkHone      WorkKind = "hone"
)

// Reason is why steel comes off.
type Reason string

// The reasons.
const (
	ReasonLow     Reason = "low"
	ReasonBroken  Reason = "broken"
	ReasonCracked Reason = "cracked"
	ReasonBent    Reason = "bent"
	ReasonChipped Reason = "chipped"
	ReasonRotate  Reason = "rotate"
	ReasonHollow  Reason = "hollow"
	ReasonTrial   Reason = "trial"
	ReasonRecall  Reason = "recall"
	ReasonOther   Reason = "other"
)

// Retires tells whether steel that comes off so is done with, or goes back to the shelf as
// a set to use again.
func (r Reason) Retires() bool { return r != ReasonRotate && r != ReasonHollow && r != ReasonTrial }

// Breaks tells whether something broke, and the steel did not wear out.
func (r Reason) Breaks() bool {
	return r == ReasonBroken || r == ReasonCracked || r == ReasonBent || r == ReasonChipped
}

// Why is why a piece came off: a runner for a Reason, a holder by the Mode of its damage.
// What a newer program's tag says is kept as it stands.
type Why string

// Reason is the reason that it is, whatever else it can be; else none of Reasons.
func (w Why) Reason() Reason { return Reason(w) }

// Mode is the damage that it is or that it stands for; else none of Modes.
func (w Why) Mode() Mode { return cmp.Or(brokenReasons()[Reason(w)], Mode(w)) }

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

// Custodian is who can have a piece.
type Custodian string

// Who has pieces; club is back at home.
const (
	CustodyClub     Custodian = "club"
	CustodyPlayer   Custodian = "player"
	CustodyNational Custodian = "national"
	CustodyFarm     Custodian = "farm"
	CustodyLoan     Custodian = "loan"
	CustodyRepairer Custodian = "repairer"
	CustodyMaker    Custodian = "maker"
	CustodyTraded   Custodian = "traded"
)

// Decision is what a maker answers.
type Decision string

// The answers; settled is that it came to its end.
const (
	DecisionOpen    Decision = "open"
	DecisionReplace Decision = "replace"
	DecisionCredit  Decision = "credit"
	DecisionRepair  Decision = "repair"
	DecisionRefuse  Decision = "refuse"
	DecisionSettled Decision = "settled"
)

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

// Remedy is how a player gets back on the ice.
type Remedy string

// The remedies.
const (
	RemedySpare    Remedy = "spare"
	RemedySteel    Remedy = "steel"
	RemedyHolder   Remedy = "holder"
	RemedyBorrowed Remedy = "borrowed"
	RemedyMended   Remedy = "mended"
	RemedyNothing  Remedy = "nothing"
	RemedyOut      Remedy = "out"
)

// Temporary tells whether the thing itself is still to be mended afterwards.
func (r Remedy) Temporary() bool { return r == RemedySpare || r == RemedyBorrowed }

// The words that the record takes. They are the trade's (common practice, no
// source); a word once in use stays readable for ever.
var (
	positions = []string{"goalkeeper", "defence", "forward"}
	roles     = []Role{RoleFirst, RoleSpare, RoleThird, RoleKept}
	reasons   = []Reason{ReasonLow, ReasonBroken, ReasonCracked, ReasonBent, ReasonChipped, ReasonRotate, ReasonHollow, ReasonTrial, ReasonRecall, ReasonOther}
	works     = []WorkKind{WorkGrind, WorkNewHollow, WorkProfile, WorkNick, WorkHone}
	modes     = []Mode{ModeCrack, ModeBreak, ModeBend, ModeChip, "loose-rivet", "loose-bolt", "rust", "wear", ModeOther}
	zones     = []Zone{"toe", "front-tower", "middle", "bridge", "rear-tower", "heel", "edge", "clamp", ZoneUnknown}
	faces     = []string{"inner", "outer", "both", "unknown"}
	causes    = []string{"puck", "stick", "skate", "fall", "boards", "grinding", "fatigue", "fitting", "unknown"}
	found     = []string{"practice", "game", "grinding", "inspection", "change", "travel", "unknown"}
	custodies = []Custodian{CustodyClub, CustodyPlayer, CustodyNational, CustodyFarm, CustodyLoan, CustodyRepairer, CustodyMaker, CustodyTraded}
	decisions = []Decision{DecisionOpen, DecisionReplace, DecisionCredit, DecisionRepair, DecisionRefuse, DecisionSettled}
	remedies  = []Remedy{RemedySpare, RemedySteel, RemedyHolder, RemedyBorrowed, RemedyMended, RemedyNothing, RemedyOut}
	unknowns  = []string{"family", "size", "hollow", "profile", "pitch", "steel"}
)

// Positions lists what a player can be.
func Positions() []string { return slices.Clone(positions) }

// Roles lists what a pair can be to its player.
func Roles() []Role { return slices.Clone(roles) }

// Reasons lists why steel comes off.
func Reasons() []Reason { return slices.Clone(reasons) }

// Works lists the kinds of work at the wheel.
func Works() []WorkKind { return slices.Clone(works) }

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
func Custodies() []Custodian { return slices.Clone(custodies) }

// Decisions lists what a maker can answer; settled is that it was received.
func Decisions() []Decision { return slices.Clone(decisions) }

// Remedies lists how a player gets back on the ice: on his spare pair, on other steel,
// on another holder, on borrowed ones, after mending, without anything broken; or out
// for the day.
func Remedies() []Remedy { return slices.Clone(remedies) }

// Unknowns lists what a player who is called up can be asked.
func Unknowns() []string { return slices.Clone(unknowns) }

// Say says who has a piece.
func (c Custodian) Say() string {
	switch c {
	case CustodyClub:
		return "with the club"
	case CustodyPlayer:
		return "at the player's home"
	case CustodyNational:
		return "with the national team"
	case CustodyFarm:
		return "with the farm club"
	case CustodyLoan:
		return "lent"
	case CustodyTraded:
		return "gone with the player"
	}
	return "with the " + string(c)
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
