package outlook

import (
	"encoding/json"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Range is a middle guess and the span that holds it in four cases of five.
type Range[T any] struct{ Low, Middle, High T }

// MarshalJSON writes [low,middle,high].
func (r Range[T]) MarshalJSON() ([]byte, error) { return json.Marshal([]T{r.Low, r.Middle, r.High}) }

// Due is what is to be said of one set that is on a pair.
type Due struct {
	Player    inventory.Number                    `json:"player"`
	Sweater   int                                 `json:"sweater"`
	Name      string                              `json:"name"`
	Pair      inventory.Number                    `json:"-"`
	Role      inventory.Role                      `json:"pair"`
	Now       bool                                `json:"-"` // it is the pair that he skates on
	Set       inventory.Number                    `json:"set_number"`
	Letter    string                              `json:"set"`
	Change    *geometry.Millimetre                `json:"change_height_mm"`
	Standing  Standing                            `json:"standing"`
	Unsafe    []inventory.Damaged                 `json:"damages"` // why nobody may skate on it
	Never     bool                                `json:"never_ground,omitempty"`
	Basis     wear.Basis                          `json:"-"`
	Heights   int                                 `json:"heights"`              // of this set's runners that the forecast rests on
	Earlier   int                                 `json:"earlier_runners"`      // runners of the player before these
	Passes    *Range[float64]                     `json:"-"`                    // left; nil: can't say
	Dates     *Range[time.Time]                   `json:"-"`                    // first day due; a zero day lies beyond the schedule
	Sessions  *Range[int]                         `json:"sessions_left"`        // until then
	Until     time.Time                           `json:"-"`                    // the schedule's last day
	CannotSay string                              `json:"cannot_say,omitempty"` // why there are no passes or no dates, and
	WhyNot    string                              `json:"-"`                    // why the runners have to be measured first
	ToDo      string                              `json:"to_do,omitempty"`      // what would help
	Sides     []Side                              `json:"-"`
	Measure   Measure                             `json:"-"`
	Ready     []standing.ReadySet                 `json:"-"`
	Refusal   *inventory.Dated[inventory.Refused] `json:"-"`
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

// MarshalText writes a standing as programs read it.
func (s Standing) MarshalText() ([]byte, error) {
	return []byte([...]string{"do-not-skate", "due-now", "coming-up", "measure-first", "can't-say", "said-no"}[s]), nil
}

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
