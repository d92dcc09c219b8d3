package outlook

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Range is a middle guess and the span that holds it in four cases of five.
type Range[T any] struct{ Low, Middle, High T }

// Due is what is to be said of one set that is on a pair.
type Due struct {
	Player    inventory.Number
	Sweater   int
	Name      string
	Pair      inventory.Number
	Role      string
	Now       bool // it is the pair that he skates on
	Set       inventory.Number
	Letter    string
	Change    *geometry.Millimetre
	Standing  Standing
	Unsafe    []inventory.Damaged // why nobody may skate on it
	Basis     wear.Basis
	Heights   int               // of this set's runners that the forecast rests on
	Earlier   int               // runners of the player before these
	Passes    *Range[float64]   // left; nil: can't say
	Dates     *Range[time.Time] // first day due; a zero day lies beyond the schedule
	Sessions  *Range[int]       // until then
	Until     time.Time         // the schedule's last day
	CannotSay string            // why there are no passes or no dates, and
	WhyNot    string            // why the runners have to be measured first
	ToDo      string            // what would help
	Sides     []Side
	Measure   Measure
	Ready     []standing.ReadySet
	Refusal   *inventory.Dated[inventory.Refused]
	forecast  wear.PairForecast
	days      []wear.Day
}

// Standing is how urgent a set is, the most urgent first.
type Standing int

// The standings.
const (
	DoNotSkate   Standing = iota // it comes off now
	DueNow                       // at or below the change height
	ComingUp                     // forecast
	NeedsMeasure                 // can't say until it is measured
	NeedsMore                    // no change height, or steel that the record does not know
	SaidNo                       // asked to change, said no; to be asked again later
)

// Side is one runner of the set.
type Side struct {
	Side   inventory.Side
	Runner inventory.Number
	standing.Height
	Loss float64  // mm a pass; 0: can't say
	Left float64  // passes left, the middle guess
	Ends []string // toe or heel, where it is at or below the change height
}

// Measure is when the next height is worth its while.
type Measure struct {
	InPasses float64
	On       time.Time // zero: the schedule does not say
	Since    int       // passes since the last one
}
