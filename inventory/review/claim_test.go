package review

import (
	"math"
	"testing"

	"steeltally/inventory"
)

// fitted is so many holders of a lot, each on a boot for so many sessions, of which some
// broke as they came off; one of them twice where there are more breaks than holders.
func (b *bench) fitted(lot string, holders, sessions, broken int) []*Life {
	var lives []*Life
	for range holders {
		lives = append(lives, b.holder(lot, inventory.Left, sessions, false))
	}
	for i := range broken {
		l := lives[i%holders]
		damage := inventory.Damaged{Piece: l.Number, Mode: "crack", Zone: "rear-tower", Unsafe: true}
		l.Damages = append(l.Damages, inventory.Dated[inventory.Damaged]{When: day(sessions - 1), Value: damage})
	}
	return lives
}

// TestClaimRates: two rates compared exactly, 11 in 800 against 21 in 3011 sessions:
// ratio 1.97148810, two-sided chance .079668633 (R 4.2.2, poisson.test).
func TestClaimRates(t *testing.T) {
	b := &bench{t: t}
	lives := append(b.fitted("HP7", 10, 80, 11), b.fitted("HP8", 30, 100, 21)...)
	lives = append(lives, b.fitted("HP8", 1, 11, 0)...)
	claim, err := Claimed{Model: "petrel h", Lot: "HP7"}.Compile(lives, theEnd)
	if err != nil {
		t.Fatal(err)
	}
	if claim.Own.Incidents != 11 || claim.Own.Sessions != 800 || claim.Rest.Incidents != 21 || claim.Rest.Sessions != 3011 {
		t.Fatalf("own %+v, rest %+v", claim.Own, claim.Rest)
	}
	if math.Abs(claim.Ratio-1.97148810) > 1e-8 || math.Abs(claim.Chance-.079668633) > 1e-9 {
		t.Errorf("ratio %.9g, chance %.9g", claim.Ratio, claim.Chance)
	}
	if len(claim.Broken) != 10 || len(claim.Fitted) != 10 || claim.Against != "the other lots of petrel h" {
		t.Errorf("%d broken of %d, against %s", len(claim.Broken), len(claim.Fitted), claim.Against)
	}
}

// TestClaimOfAZone counts only what broke there, and of all models where no lot is named.
func TestClaimOfAZone(t *testing.T) {
	b := &bench{t: t}
	lives := append(b.fitted("HP7", 4, 50, 2), b.fitted("HP8", 4, 50, 0)...)
	other := b.fitted("S1", 5, 50, 1)
	for _, l := range other {
		l.Model = "Skua H"
	}
	lives = append(lives, other...)
	unused := &Life{Number: b.runner(), Model: "Petrel H", InUse: true}
	lives[0].Damages[0].Value.Zone = "toe"
	claim, err := Claimed{Model: "Petrel H", Zone: "rear-tower"}.Compile(append(lives, unused), theEnd)
	if err != nil {
		t.Fatal(err)
	}
	if claim.Own.Incidents != 1 || len(claim.Broken) != 1 || len(claim.Fitted) != 8 || claim.InStock != 1 || claim.Rest.Incidents != 1 || claim.Rest.Pieces != 5 {
		t.Errorf("own %+v, %d broken of %d, %d in stock, rest %+v", claim.Own, len(claim.Broken), len(claim.Fitted), claim.InStock, claim.Rest)
	}
	chips := Claimed{Model: "Petrel H"}
	lives[0].Damages[0].Value.Unsafe = false
	if claim, err = chips.Compile(lives, theEnd); err != nil || len(claim.Broken) != 1 {
		t.Errorf("a chip is claimed: %d broken, %v", len(claim.Broken), err)
	}
}
