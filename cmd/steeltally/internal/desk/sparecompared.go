package desk

import (
	"math"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
)

// ComparedLine is what a spare pair was compared by: the specs of today and what it was
// ground to, heights left and right, and the days since.
type ComparedLine struct {
	Set         string               `json:"set,omitempty"`
	Hollow      string               `json:"hollow,omitempty"` // it was ground to
	HollowSpec  string               `json:"hollow_spec,omitempty"`
	Profile     string               `json:"profile,omitempty"`
	ProfileSpec string               `json:"profile_spec,omitempty"`
	Pitch       *geometry.Millimetre `json:"pitch_mm,omitempty"`
	PitchSpec   *geometry.Millimetre `json:"pitch_spec_mm,omitempty"`
	Height      SidesMillimetre      `json:"height_mm"`
	HeightFirst SidesMillimetre      `json:"height_first_pair_mm"`
	Tried       *int                 `json:"tried_days_ago,omitempty"`
	Looked      *int                 `json:"looked_days_ago,omitempty"`
	Ground      *int                 `json:"ground_days_ago,omitempty"`
	Skated      *int                 `json:"skated_days_ago,omitempty"`
}

// SidesMillimetre is a length for each side; what is not there is not known.
type SidesMillimetre struct {
	Left  *geometry.Millimetre `json:"left,omitempty"`
	Right *geometry.Millimetre `json:"right,omitempty"`
}

func sidesMillimetre(both inventory.Both[geometry.Millimetre]) SidesMillimetre {
	return SidesMillimetre{hundredths(both.Left), hundredths(both.Right)}
}

// hundredths rounds a difference to what a caliper shows.
func hundredths(l *geometry.Millimetre) *geometry.Millimetre {
	if l == nil {
		return nil
	}
	rounded := geometry.Millimetre(math.Round(float64(*l)*100) / 100)
	return &rounded
}

func comparedLine(p *travel.Pair, at time.Time) ComparedLine {
	line := ComparedLine{
		Set: p.Set, Profile: p.Ground.Profile.String(), ProfileSpec: p.Specs.Profile.String(),
		Pitch: p.Pitch, PitchSpec: p.Specs.Pitch,
		Height: heightsLine(p.Heights), HeightFirst: heightsLine(p.Against),
		Tried: daysAgo(p.Tried, at), Looked: daysAgo(p.Looked, at), Ground: daysAgo(p.Ground.When, at), Skated: daysAgo(p.Skated, at),
	}
	if p.Ground.Hollow != nil {
		line.Hollow = p.Ground.Hollow.String()
	}
	if p.Specs.Hollow != nil {
		line.HollowSpec = p.Specs.Hollow.String()
	}
	return line
}

func heightsLine(heights inventory.Both[standing.Height]) SidesMillimetre {
	var line SidesMillimetre
	if heights.Left != nil {
		line.Left = heights.Left.Now
	}
	if heights.Right != nil {
		line.Right = heights.Right.Now
	}
	return line
}

// daysAgo counts whole days; nil where it never was, as far as is known.
func daysAgo(when inventory.When, at time.Time) *int {
	if when.Unknown() {
		return nil
	}
	days := int(at.Sub(when.Start) / (24 * time.Hour))
	return &days
}
