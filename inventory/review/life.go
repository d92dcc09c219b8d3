package review

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// Life is what one runner or holder went through.
type Life struct {
	Number  inventory.Number
	FromTag bool // nothing but its tag is known
	Model   string
	Size    int
	Lot     string
	Order   string // purchase order
	Fitted  inventory.When
	Player  inventory.Number
	Sweater int
	Side    inventory.Side
	Set     inventory.Number
	Place   int // the how-manieth set of its player, as recorded; 0: not known
	In, Out inventory.When
	InUse   bool // not done with
	Days    *int // in use, where the dates are known
	Times   *int // sessions of the club in use, where there is a schedule
	Grinds  int
	Passes  int
	Unknown bool // passes that nobody counted come on top
	New     *geometry.Millimetre
	Final   *geometry.Millimetre // last height of steel that is done with
	Change  *geometry.Millimetre // at which its player changed then
	Refused bool                 // he had been asked to change before
	Hollow  inventory.Cut
	Reason  string
	Damages []inventory.Dated[inventory.Damaged]

	spans  []span
	counts Sessions
	runner *inventory.Runner
	tag    *inventory.TagFacts
	hands  map[inventory.Key]hand // who ground it, by entry

	elsewhere bool // steel was taken off it while it was in another set
}

// Steel tells whether it is a runner.
func (l *Life) Steel() bool { return l.Number.Kind() == inventory.KindRunner }

// Below tells whether it was taken off below its player's change height.
func (l *Life) Below() bool { return l.Final != nil && l.Change != nil && *l.Final < *l.Change }

// Within tells whether a piece was in use after an instant.
func (l *Life) Within(from time.Time) bool {
	if l.In.Unknown() && l.Out.Unknown() && l.InUse {
		return false // never used
	}
	return l.InUse || l.Out.Unknown() || !l.Out.Start.Before(from)
}
