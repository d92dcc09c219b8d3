package review

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/trend"
)

// Claimed says which pieces a claim is about.
type Claimed struct {
	Model string         `json:"model"`
	Lot   string         `json:"lot"`  // empty: every lot
	Zone  inventory.Zone `json:"zone"` // empty: every place
}

// Claim is what a maker is told: the pieces that broke, all others of the same kind,
// and what the record compares them with.
type Claim struct {
	Claimed
	Broken  []*Life // pieces with such a damage, in the order in which it happened
	Fitted  []*Life // all that were fitted, the broken ones too
	InStock int     // of the same kind, never fitted
	Own     Rate
	Rest    Rate    // what it is compared with: other lots of the model, or other models
	Against string  // in words: "the other lots of Petrel H"
	Ratio   float64 // of the two rates; +Inf where the others had none
	Low     float64
	High    float64
	Chance  float64 // that chance alone makes so large a difference; 1: nothing to compare
}

// incidentsAt counts the damages that the claim is about until a time.
func (c Claimed) incidentsAt(l *Life, until time.Time) int {
	count := 0
	for _, damage := range l.Damages {
		if c.meant(damage.Value) && !damage.When.After(until) {
			count++
		}
	}
	return count
}

func (c Claimed) meant(d inventory.Damaged) bool {
	return d.Unsafe && (c.Zone == "" || d.Zone == c.Zone)
}

// Damages are those of a piece that the claim is about.
func (c Claimed) Damages(l *Life) []inventory.Dated[inventory.Damaged] {
	return slices.DeleteFunc(slices.Clone(l.Damages), func(d inventory.Dated[inventory.Damaged]) bool { return !c.meant(d.Value) })
}

// own tells whether a piece is of the kind that is claimed.
func (c Claimed) own(l *Life) bool {
	return strings.EqualFold(l.Model, c.Model) && (c.Lot == "" || strings.EqualFold(l.Lot, c.Lot))
}

// Compile makes a claim of the lives of all pieces of a kind, runners or holders.
func (c Claimed) Compile(lives []*Life, until time.Time) (Claim, error) {
	claim := Claim{Claimed: c, Own: Rate{Name: c.Model}, Chance: 1, Against: "the other models"}
	if c.Lot != "" {
		claim.Own.Name, claim.Against = "lot "+c.Lot, "the other lots of "+c.Model
	}
	for _, l := range lives {
		switch {
		case c.own(l):
			claim.add(l, until)
		case c.Lot == "" || strings.EqualFold(l.Model, c.Model):
			claim.Rest.count(c, l, until)
		}
	}
	slices.SortStableFunc(claim.Broken, func(a, b *Life) int {
		return cmp.Compare(c.Damages(a)[0].When.Start.Unix(), c.Damages(b)[0].When.Start.Unix())
	})
	return claim, claim.compare()
}

func (c *Claim) add(l *Life, until time.Time) {
	if l.In.Unknown() {
		c.InStock++
		return
	}
	c.Fitted = append(c.Fitted, l)
	c.Own.count(c.Claimed, l, until)
	if len(c.Damages(l)) > 0 {
		c.Broken = append(c.Broken, l)
	}
}

// count adds a piece with its sessions and those of its damages that are meant.
func (r *Rate) count(c Claimed, l *Life, until time.Time) {
	sessions := l.timesUntil(until)
	if sessions == 0 {
		return
	}
	r.Pieces++
	r.Incidents += c.incidentsAt(l, until)
	r.Sessions += float64(sessions)
}

func (c *Claim) compare() error {
	if c.Own.Sessions == 0 {
		return nil
	}
	if err := c.Own.settle(); err != nil {
		return err
	}
	if c.Rest.Sessions == 0 || c.Own.Incidents+c.Rest.Incidents == 0 {
		return nil
	}
	if err := c.Rest.settle(); err != nil {
		return err
	}
	group := func(r Rate) trend.Group { return trend.Group{Incidents: r.Incidents, Sessions: r.Sessions} }
	against, err := trend.CompareWithRest(group(c.Own), group(c.Rest), level, trend.UsualPlan().Level)
	c.Ratio, c.Low, c.High, c.Chance = against.Ratio, against.Interval.Low, against.Interval.High, against.P
	return err
}
