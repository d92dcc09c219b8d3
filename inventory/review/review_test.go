package review

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// theEnd is when every review here is made: well behind the year's second set day.
var theEnd = time.Date(2026, 1, 10, 12, 0, 0, 0, time.UTC)

func day(n int) inventory.When {
	start := time.Date(2025, 9, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n)
	return inventory.Between(start, start.AddDate(0, 0, 1))
}

// bench numbers what it makes.
type bench struct {
	t    *testing.T
	made int
}

func (b *bench) runner() inventory.Number {
	b.made++
	n, err := inventory.NewNumber(inventory.KindRunner, 1, b.made)
	if err != nil {
		b.t.Fatal(err)
	}
	return n
}

func (b *bench) player(running int) inventory.Number {
	n, err := inventory.NewNumber(inventory.KindPlayer, 1, running)
	if err != nil {
		b.t.Fatal(err)
	}
	return n
}

// tagged is a runner of which only the tag is left.
func (b *bench) tagged(player, sweater int, side inventory.Side, in, out int, final geometry.Millimetre, passes int) *Life {
	height := geometry.Millimetre(21)
	facts := inventory.TagFacts{Out: day(out), KnownFromTag: inventory.KnownFromTag{
		Piece: b.runner(), Generation: 1, Player: b.player(player), Sweater: sweater, Side: side, In: day(in),
		New: &height, Final: &final, Grinds: passes / 5, Passes: passes, Reason: "low",
	}}
	return lifeOfTag(facts, time.UTC)
}

// pair is the left and the right runner of one set, which lost so much a pass.
func (b *bench) pair(player, in, out int, left, right float64) []*Life {
	const passes = 280
	low := func(loss float64) geometry.Millimetre { return geometry.Millimetre(21 - loss*passes) }
	return []*Life{
		b.tagged(player, 10+player, inventory.Left, in, out, low(left), passes),
		b.tagged(player, 10+player, inventory.Right, in, out, low(right), passes),
	}
}

func nobody(inventory.Number) (string, bool) { return "", false }

func compile(t *testing.T, lives []*Life) *Review {
	t.Helper()
	r, err := Compile(lives, nobody, Span{Until: theEnd}, wear.Defaults())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// finding is the first of a kind.
func finding(t *testing.T, r *Review, kind, about string) Finding {
	t.Helper()
	for _, f := range r.Findings {
		if f.Kind == kind && strings.Contains(f.About, about) {
			return f
		}
	}
	t.Fatalf("no finding of %s about %q among %d", kind, about, len(r.Findings))
	return Finding{}
}

// TestLeftWearsFaster calls a difference of 20 % over twelve sets, and none between
// players whose sides wear alike.
func TestLeftWearsFaster(t *testing.T) {
	b := &bench{t: t}
	r := rand.New(rand.NewPCG(17, 4))
	var lives []*Life
	for i := range 12 {
		wobble := func() float64 { return 0.019 * math.Exp(0.03*r.NormFloat64()) }
		lives = append(lives, b.pair(1, 8*i, 8*i+7, 1.2*wobble(), wobble())...)
		lives = append(lives, b.pair(2, 8*i, 8*i+7, wobble(), wobble())...)
	}
	review := compile(t, lives)
	f := finding(t, review, "sides", "11")
	if f.Verdict != Differs || f.N != 12 || f.Low < 1.1 || f.High > 1.3 || !strings.Contains(f.Words, "% faster") {
		t.Errorf("%+v", f)
	}
	if review.Findings[0].Kind != "sides" {
		t.Error("what differs does not stand first")
	}
	alike := finding(t, review, "sides", "12")
	if alike.Verdict != CantSay || !strings.Contains(alike.Words, "can't say; a difference below about") {
		t.Errorf("%+v", alike)
	}
	for _, word := range []string{"p-value", "significant", "confidence", "test", "null"} {
		if strings.Contains(f.Words+alike.Words, word) {
			t.Errorf("a screen says %q", word)
		}
	}
}

// TestVerdictsWaitForTheSetDay: sets that came off after the year's last set day (the
// 104th from September) show in the interval, and not yet in the verdict.
func TestVerdictsWaitForTheSetDay(t *testing.T) {
	b := &bench{t: t}
	var lives []*Life
	for i := range 12 {
		lives = append(lives, b.pair(1, 100, 106+i, 0.0240+0.0001*float64(i%3), 0.0190)...)
	}
	f := finding(t, compile(t, lives), "sides", "11")
	if f.Verdict != CantSay || f.N != 12 || f.Low < 1.2 {
		t.Errorf("%+v: want the interval and no verdict yet", f)
	}
	look, err := lastLook(theEnd)
	if err != nil || look.Before(day(103).Start) || look.After(day(105).Start) {
		t.Errorf("the last set day ends at %v, %v", look, err)
	}
}

// TestSetsFromTags puts scrambled tags back together and in order; a lone runner is a
// set of its own.
func TestSetsFromTags(t *testing.T) {
	b := &bench{t: t}
	var lives []*Life
	for _, from := range []int{40, 0, 20} {
		lives = append(lives, b.pair(1, from, from+20, 0.02, 0.02)...)
	}
	lone := b.tagged(1, 11, inventory.Left, 60, 66, 18, 90)
	lives = append([]*Life{lone}, lives...)
	lives[2], lives[5] = lives[5], lives[2]
	review := compile(t, lives)
	sets := review.Players[0].Sets
	if len(sets) != 4 || len(review.Players) != 1 {
		t.Fatalf("%d players, %d sets", len(review.Players), len(sets))
	}
	for i, s := range sets {
		if s.Place != i+1 || (s.Out.Start.Sub(day(0).Start).Hours()/24) != []float64{20, 40, 60, 66}[i] {
			t.Errorf("set %d came off on %v", s.Place, s.Out.Start)
		}
		if i < 3 && (s.Left == nil || s.Right == nil) {
			t.Errorf("set %d is not whole", s.Place)
		}
	}
	if sets[3].Left != lone || sets[3].Right != nil {
		t.Error("the lone runner has a mate")
	}
	if got := review.Players[0].Days; got != (Spread{N: 4, Low: 6, Middle: 20, High: 20}) {
		t.Errorf("days in use %+v", got)
	}
}

// TestUnknownDaysPairNothing: tags without dates are not taken for one set.
func TestUnknownDaysPairNothing(t *testing.T) {
	b := &bench{t: t}
	left, right := b.tagged(1, 11, inventory.Left, 0, 10, 15, 280), b.tagged(1, 11, inventory.Right, 0, 10, 15, 280)
	left.In, left.Out, right.In, right.Out = inventory.When{}, inventory.When{}, inventory.When{}, inventory.When{}
	if sets := wornSets([]*Life{left, right}); len(sets) != 2 {
		t.Errorf("%d sets of two runners without dates", len(sets))
	}
}

// TestGoalkeepersByTheirCut: of tags alone, a cut measured in feet is a goalkeeper's,
// who is pooled apart.
func TestGoalkeepersByTheirCut(t *testing.T) {
	b := &bench{t: t}
	var lives []*Life
	for i := range 4 {
		lives = append(lives, b.pair(1, 20*i, 20*i+19, 0.02, 0.02)...)
	}
	before := compile(t, lives).Players[0].Loss
	keeper := b.pair(3, 0, 60, 0.011, 0.011)
	for _, life := range keeper {
		life.Hollow = inventory.Cut{Radius: 8534}
	}
	review := compile(t, append(lives, keeper...))
	if got := review.Players[0].Loss; got != before {
		t.Errorf("a goalkeeper changed a skater's loss from %+v to %+v", before, got)
	}
	if k := review.Players[1]; !k.Goalkeeper || math.Abs(k.Loss.Middle-0.013) > 0.003 {
		t.Errorf("goalkeeper %v, loss %+v", k.Goalkeeper, k.Loss)
	}
}

// TestHeightsAtRemovalFall: the same fall in every player's heights is called, also
// where the players change at very different heights.
func TestHeightsAtRemovalFall(t *testing.T) {
	b := &bench{t: t}
	var lives []*Life
	for player := 1; player <= 3; player++ {
		for i := range 6 {
			final := geometry.Millimetre(14+player) - 0.1*geometry.Millimetre(i)
			lives = append(lives, b.tagged(player, 10+player, inventory.Left, 14*i, 14*i+14, final, 280))
		}
	}
	f := finding(t, compile(t, lives), "removal-height", "")
	if f.Verdict != Differs || math.Abs(f.Middle+0.1*30/14) > 1e-6 || !strings.Contains(f.Words, "lower and lower") {
		t.Errorf("%+v", f)
	}
}

// TestNullSeasonsStayQuiet: clubs whose sides, lots and months are all alike get no
// finding in nearly all seasons.
func TestNullSeasonsStayQuiet(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 11))
	const seasons = 60
	loud := 0
	for range seasons {
		b := &bench{t: t}
		var lives []*Life
		for player := 1; player <= 12; player++ {
			usual := 0.019 * math.Exp(0.25*r.NormFloat64())
			for i := range 8 {
				pair := usual * math.Exp(0.12*r.NormFloat64())
				lives = append(lives, b.pair(player, 12*i, 12*i+11, pair*math.Exp(0.05*r.NormFloat64()), pair*math.Exp(0.05*r.NormFloat64()))...)
			}
		}
		for _, f := range compile(t, lives).Findings {
			if f.Verdict == Differs {
				loud++
				break
			}
		}
	}
	if loud > seasons/12 {
		t.Errorf("%d of %d seasons without any difference got a finding", loud, seasons)
	}
}
