package outlook

import (
	"cmp"
	"encoding/json"
	"slices"
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
	NeedsMore                    // no change height, steel that the record does not know, or a boot that lacks it
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

// sidesOf is what is known of each runner that is on, before a forecast.
func sidesOf(pair *standing.Skates, set *standing.Steel, e standing.Expected) []Side {
	var list []Side
	for side, height := range e.Heights.Each {
		if slices.ContainsFunc(pair.Lacks, func(l standing.Lack) bool { return l.Side == side }) {
			continue
		}
		list = append(list, Side{Side: side, Runner: set.Runner(side).Number, Height: *height})
	}
	return list
}

// tellSides adds what the forecast says of each runner.
func (o *Outlook) tellSides(d *Due, set *standing.Steel) {
	for i := range d.Sides {
		side := &d.Sides[i]
		forecast := d.forecast.Left
		if side.Side == inventory.Right {
			forecast = d.forecast.Right
		}
		side.Loss = forecast.Loss
		side.Left = max(0, (forecast.Height-float64(*d.Change))/forecast.Loss)
		if reading := set.Runner(side.Side).LastReading(o.At); reading != nil {
			side.Ends = lowEnds(*reading, *d.Change)
		}
	}
}

// lowEnds names the ends of a runner that are at or below the change height.
func lowEnds(r inventory.Reading, change geometry.Millimetre) []string {
	var ends []string
	if r.Toe != nil && *r.Toe <= change {
		ends = append(ends, "toe")
	}
	if r.Heel != nil && *r.Heel <= change {
		ends = append(ends, "heel")
	}
	return ends
}

// standing weighs what is known of a set. Nothing outweighs a crack; a player who said
// no is left in peace until the review.
func (o *Outlook) standing(d Due) Standing {
	switch {
	case len(d.Unsafe) > 0:
		return DoNotSkate
	case d.Refusal != nil && d.Refusal.Value.Review.After(o.At):
		return SaidNo
	case d.Passes != nil && (d.Passes.Middle == 0 || d.low()):
		return DueNow
	case d.Passes != nil:
		return ComingUp
	case d.WhyNot == "":
		return NeedsMore
	}
	return NeedsMeasure
}

func (d *Due) low() bool {
	return slices.ContainsFunc(d.Sides, func(s Side) bool { return s.AtEnd(*d.Change) })
}

// byUrgency sorts by standing, then what is due by how far it is below the change height,
// then by the day that is due, then by passes left.
func byUrgency(list []Due) {
	slices.SortStableFunc(list, func(a, b Due) int {
		return cmp.Or(
			cmp.Compare(a.Standing, b.Standing),
			cmp.Compare(a.above(), b.above()),
			cmp.Compare(a.dueOn(), b.dueOn()),
			cmp.Compare(a.left(), b.left()),
			cmp.Compare(a.Sweater, b.Sweater),
		)
	})
}

// above is how far the lower runner of a set that is due is above the change height, mm; 0
// of the others.
func (d *Due) above() geometry.Millimetre {
	least := geometry.Millimetre(0)
	for _, side := range d.Sides {
		if d.Standing == DueNow && side.Now != nil && d.Change != nil {
			least = min(least, *side.Now-*d.Change)
		}
	}
	return least
}

// dueOn is the middle day, far away where there is none.
func (d *Due) dueOn() int64 {
	const never = 1 << 60
	if d.Dates == nil || d.Dates.Middle.IsZero() {
		return never
	}
	return d.Dates.Middle.Unix()
}

func (d *Due) left() float64 {
	const ever = 1e12
	if d.Passes == nil {
		return ever
	}
	return d.Passes.Middle
}

// MayBeDue keeps the sets of which it is not sure that they last until a time: those
// that can't be forecast stay too.
func MayBeDue(list []Due, until time.Time) []Due {
	return slices.DeleteFunc(slices.Clone(list), func(d Due) bool {
		if d.Standing == DoNotSkate || d.Standing == DueNow || d.Dates == nil {
			return false
		}
		return d.Dates.Low.IsZero() || !d.Dates.Low.Before(until)
	})
}
