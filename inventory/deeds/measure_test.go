package deeds

import (
	"math"
	"testing"

	"steeltally/inventory"
)

func one(n inventory.Number, middle float64) MeasureSteel {
	return MeasureSteel{Heights: []inventory.Height{{Runner: n, Middle: mm(middle)}}}
}

func TestHeightsOffByASlip(t *testing.T) {
	c := openClubhouse(t)
	n := c.runners[0] // 11.9 mm at stock-in
	c.do("2 09:00", one(n, 11.8))
	for middle, reason := range map[float64]string{
		41.2: "can't be right", 112: "can't be right", 0: "can't be right", -11: "can't be right", 0.45: "can't be right",
		1.12: "can't be right", 12.2: "higher than last time", math.NaN(): "can't be right", math.Inf(1): "can't be right",
	} {
		c.refuses("3 09:00", one(n, middle), reason)
	}
	c.do("3 09:00", one(n, 12.1)) // a caliper repeats no better
	c.refuses("4 09:00", MeasureSteel{Heights: []inventory.Height{{Runner: n, Toe: mm(11)}}}, "middle is missing")
	c.refuses("4 09:00", MeasureSteel{Heights: []inventory.Height{{Runner: n, Middle: mm(11), Heel: mm(99)}}}, "can't be right")
	c.refuses("4 09:00", MeasureSteel{}, "no height was given")
	c.refuses("4 09:00", one(c.left, 11), "is a holder, not a runner")
	c.refuses("4 09:00", MeasureSteel{Reference: "wet", Heights: one(n, 11).Heights}, "not known")
}

func TestHigherThanAtStockIn(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("2 09:00", one(c.runners[0], 14.2), "higher than at stock-in, 11.90 mm")
}

func TestKeptAsReadAndFlagged(t *testing.T) {
	c := openClubhouse(t)
	n := c.runners[0]
	for _, middle := range []float64{0, -1, 412, math.NaN(), math.Inf(1)} {
		deed := one(n, middle)
		deed.AsRead = true
		c.refuses("2 09:00", deed, "can't be right") // no height at all
	}
	fine := one(n, 11.5)
	fine.AsRead = true
	c.do("2 09:00", fine)
	c.quiet()
	c.unflagged() // nothing looked like a slip
	deed := one(n, 41.2)
	deed.AsRead = true
	slip := c.do("3 09:00", deed)
	c.told("kept as read")
	c.flagged(n, "kept as read")
	c.do("4 09:00", KeepAll{Events: slip, Words: "it is a trial runner"})
	c.unflagged()
}

func TestLooseAndFittedAreNeverMixed(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	heights := inventory.Both[inventory.Height]{Left: &inventory.Height{Middle: mm(11.2), Toe: mm(11.1), Heel: mm(11.0)}, Right: &inventory.Height{Middle: mm(11.1)}}
	deed, err := MeasureOn(&c.Ledger, c.bo, 0, heights, Moment{when(t, "4 09:00"), theNow})
	if err != nil {
		t.Fatal(err)
	}
	if heights.Left.Runner != 0 || heights.Left.Side != "" {
		t.Error("the caller's heights were written to")
	}
	body := c.do("4 09:00", deed)[0].Body.(*inventory.Measured)
	if body.Reference != inventory.Fitted || body.Set != c.setA || body.Heights[0].Runner != c.runners[0] || body.Heights[1].Side != inventory.Right {
		t.Errorf("measured %+v", body)
	}
	c.do("5 09:00", MeasureSteel{Reference: inventory.Loose, Heights: one(c.runners[0], 11.9).Heights}) // another series
	mixed := MeasureSteel{Heights: append(one(c.runners[0], 11).Heights, one(c.runners[2], 11).Heights...)}
	c.refuses("6 09:00", mixed, "one runner is in a holder")
	inHand, err := MeasureSet(&c.Ledger, c.setB, heights)
	if err != nil || inHand.Heights[1].Runner != c.runners[3] || heights.Left.Runner != 0 {
		t.Errorf("%+v, %v", inHand, err)
	}
	if body := c.do("6 09:00", inHand)[0].Body.(*inventory.Measured); body.Reference != inventory.Loose {
		t.Errorf("in the hand it is %s", body.Reference)
	}
	_, err = MeasureOn(&c.Ledger, c.bo, 0, heights, Moment{when(t, "2 09:00"), theNow})
	if err == nil {
		t.Error("heights of steel that was not on were taken")
	}
}

func TestHeightOfUnknownTime(t *testing.T) {
	c := openClubhouse(t)
	c.do("3 09:00", one(c.runners[0], 10.5))
	c.do("unknown", one(c.runners[0], 11.4)) // from an old list: no last time to hold it against
	if last := c.runner(c.runners[0]).LastReading(theNow); *last.Middle != 10.5 {
		t.Errorf("the last height is %s", *last.Middle)
	}
}

// Height new is taken after the first grind; until then it is the height at stock-in.
func TestHeightNew(t *testing.T) {
	c := openClubhouse(t)
	n := c.runners[0]
	c.putIn("3 08:00", c.setA)
	check := func(time string, want millimetre) {
		t.Helper()
		if wear := c.runner(n).WearAt(at(t, time)); wear.HeightNew == nil || *wear.HeightNew != want {
			t.Errorf("at %s: %v, want %s", time, wear.HeightNew, want)
		}
	}
	loose := func(time string, middle float64) {
		t.Helper()
		c.do(time, MeasureSteel{Reference: inventory.Loose, Heights: one(n, middle).Heights})
	}
	check("3 08:00", 11.9)
	loose("3 09:00", 11.85)
	c.do("3 10:00", Grind{Player: c.bo, Work: "hone"})
	loose("3 10:30", 11.84)
	check("3 11:00", 11.9)
	c.do("3 11:00", Grind{Player: c.bo, Work: "new-hollow", Hollow: &inventory.Cut{Radius: 12.7}, Passes: passes(12, 12)})
	check("3 11:30", 11.9)
	loose("3 12:00", 11.6)
	check("3 12:00", 11.6)
	c.grind("4 09:00")
	loose("4 10:00", 11.5)
	check("5 09:00", 11.6)
	check("3 11:30", 11.9) // as it was seen then
}

// What is recorded between two heights explains only so much: 0.6 mm for the caliper,
// and 0.06 mm a pass or 0.25 mm a day and one more, whichever is more.
func TestFarLowerThanLastTime(t *testing.T) {
	profile, hollow, hone := Grind{Work: "profile", Passes: passes(4, 4)}, Grind{Work: "new-hollow", Hollow: &inventory.Cut{Radius: 12.7}, Passes: passes(9, 9)}, Grind{Work: "hone"}
	for _, c := range []struct {
		name    string
		between []Grind
		at      string
		middle  float64
		refused bool
	}{
		{"nothing was ground", nil, "2 12:00", 5.5, true},
		{"a digit was mistyped", nil, "2 12:00", 10.3, true},
		{"the caliper and a grind that nobody logged", nil, "2 12:00", 10.45, false},
		{"honed", []Grind{hone}, "2 12:00", 10.3, true},
		{"forty passes", []Grind{{Passes: passes(40, 40)}}, "2 12:00", 8.6, false},
		{"more than forty passes take", []Grind{{Passes: passes(40, 40)}}, "2 12:00", 8.4, true},
		{"nobody counted the passes", []Grind{{Unknown: true}}, "2 12:00", 8.5, false},
		{"more than any grind takes", []Grind{{Unknown: true}}, "2 12:00", 8.4, true},
		{"a new profile", []Grind{profile}, "2 12:00", 5.5, false},
		{"a new hollow", []Grind{hollow}, "2 12:00", 5.5, false},
		{"two weeks without a word", nil, "15 12:00", 7.5, false},
		{"two weeks, and far lower", nil, "15 12:00", 6.9, true},
		{"some time of the next day", nil, "2025-11-02", 5.5, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			club := openClubhouse(t)
			n := club.runners[0]
			club.do("1 12:00", one(n, 11.5))
			for _, grind := range c.between {
				grind.Set = club.setA
				club.do("2 09:00", grind)
			}
			deed := one(n, c.middle)
			deed.Doubting = true
			if !c.refused {
				club.do(c.at, deed)
				club.unflagged()
				return
			}
			club.refuses(c.at, deed, "far lower than last time, 11.50 mm")
			deed.Doubting = false // nobody is there to look again
			club.do(c.at, deed)
			club.told("far lower than last time, 11.50 mm")
			club.flagged(n, "kept as read")
		})
	}
}

// A low height that is kept as read is flagged, and the next one is not held against it;
// nor is a fitted one held against a loose one.
func TestLowHeightKeptAsRead(t *testing.T) {
	c := openClubhouse(t)
	n := c.runners[0]
	c.do("1 09:00", one(n, 9)) // its first: nobody knows what it went through before
	deed := one(n, 7)
	deed.Doubting = true
	c.refuses("2 09:00", deed, "explains 7.90 mm at the lowest")
	deed.AsRead = true
	c.do("2 09:00", deed)
	c.told("far lower than last time, 9.00 mm")
	c.told("kept as read")
	c.flagged(n, "kept as read")
	c.do("2 10:00", one(n, 5.2))
	c.do("2 11:00", MeasureSteel{Reference: inventory.Fitted, Heights: one(n, 11).Heights})
}
