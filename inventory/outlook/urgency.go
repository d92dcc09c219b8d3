package outlook

import (
	"cmp"
	"slices"
	"time"

	"steeltally/geometry"
)

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
	case d.Change == nil:
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
