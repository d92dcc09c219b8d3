package geometry

import "fmt"

// tooMuchScatter is where "the errors given" stops being a likely story for the
// heights; common practice in fitting, no source.
const tooMuchScatter = 2

// Meaning says in one sentence how far to trust the radius and what would help
// most.
func (d RockerDoubt) Meaning() string {
	sentence := d.radiusWords()
	switch {
	case d.Misfit > tooMuchScatter:
		sentence += "; the heights do not lie on one radius: a slip, or a profile of several radii"
	case d.RadiusDoubt.Station > d.RadiusDoubt.Caliper:
		sentence += "; the stations cost more than the caliper: mark them, or use a stop"
	case d.RadiusDoubt.Caliper > 0:
		sentence += "; the caliper costs most: measure again, or wider apart"
	}
	return sentence + "."
}

func (d RockerDoubt) radiusWords() string {
	if d.RadiusHigh == 0 {
		return fmt.Sprintf("The radius is at least %.1f ft; these heights can't say more", float64(d.RadiusLow/foot))
	}
	return fmt.Sprintf("The radius lies between %.1f and %.1f ft, the balance point within %.0f mm",
		float64(d.RadiusLow/foot), float64(d.RadiusHigh/foot), float64(2*d.BalanceDoubt.Total))
}
