package trend

import (
	"fmt"

	"steeltally/inventory/wear/stats"
)

// Reason is why a runner left use. The zero value is one that did not: it is
// still in use, was lost, or the season ended.
type Reason int

// Reasons for removal.
const (
	StillInUse Reason = iota
	LowSteel
	Breakage
	OtherReason
)

const reasons = int(OtherReason)

// LifeSpan is one runner's life, in days, sessions or grinds, and its end.
type LifeSpan struct {
	Length float64
	Reason Reason
}

// ByReason gives the share of runners that had left by each time for low steel,
// for breakage and for other reasons: only those still in use, lost, or at the
// season's end are cut off.
func ByReason(lives []LifeSpan) ([]stats.IncidenceStep, error) {
	ends := make([]stats.End, len(lives))
	for i, l := range lives {
		if l.Reason < StillInUse || l.Reason > OtherReason {
			return nil, fmt.Errorf("runner %d of %d: reason %d is not known", i+1, len(lives), l.Reason)
		}
		ends[i] = stats.End{Time: l.Length, Cause: int(l.Reason)}
	}
	return stats.AalenJohansen(ends, reasons)
}
