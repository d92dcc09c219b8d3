package review

import "slices"

// Spread is how some values lie: half of them at or below the middle one.
type Spread struct {
	High   float64 `json:"highest"`
	Low    float64 `json:"lowest"`
	Middle float64 `json:"median"`
	N      int     `json:"n"`
}

func spreadOf(values []float64) Spread {
	if len(values) == 0 {
		return Spread{}
	}
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	return Spread{N: n, Low: sorted[0], Middle: (sorted[(n-1)/2] + sorted[n/2]) / 2, High: sorted[n-1]}
}

// ofSets takes one value of each set: that of its side which has the larger one.
func ofSets(sets []*WornSet, value func(*Life) (float64, bool)) Spread {
	var values []float64
	for _, s := range sets {
		most, any := 0.0, false
		for _, life := range s.lives() {
			if v, ok := value(life); ok && (!any || v > most) {
				most, any = v, true
			}
		}
		if any {
			values = append(values, most)
		}
	}
	return spreadOf(values)
}

func whole(n *int) (float64, bool) {
	if n == nil {
		return 0, false
	}
	return float64(*n), true
}
