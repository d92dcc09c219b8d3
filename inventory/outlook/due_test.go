package outlook

import (
	"math"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/wear"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v ± %v", what, got, want, tolerance)
	}
}

// TestTradeExample is the trade's own sum: 11.90 mm, after 120 passes 9.34 mm, change
// at 8.40 mm: about 0.0214 mm a pass and 44 passes left.
func TestTradeExample(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 0)
	due := b.only(player)
	near(t, "loss", due.Sides[0].Loss, 0.0214, 0.0004)
	near(t, "passes left", due.Passes.Middle, 44, 1)
	if due.Passes.Low < 35 || due.Passes.High > 55 || due.Passes.Low >= due.Passes.Middle {
		t.Errorf("range %+v", *due.Passes)
	}
	if due.Heights != 3 || due.Earlier != 0 || due.Standing != ComingUp || due.Letter != "A" {
		t.Errorf("%d heights, %d earlier runners, standing %d, set %s", due.Heights, due.Earlier, due.Standing, due.Letter)
	}
	planned, err := b.look().Planned(due, []float64{15, 10, 10, 15})
	if err != nil || planned.Dates == nil {
		t.Fatalf("no dates: %v", err)
	}
	if fourth := midnight(day(3).In(planned.Dates.Middle.Location())); !planned.Dates.Middle.Equal(fourth) {
		t.Errorf("due on %v, want the fourth day, %v", planned.Dates.Middle, fourth)
	}
}

// TestUnknownPassesSaySo forecasts nothing until the steel is measured again, and what
// was known before still tells of the wear.
func TestUnknownPassesSaySo(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 10)
	b.grind(day(-5), player, 0)
	due := b.only(player)
	if due.Passes != nil || due.Dates != nil || due.Standing != NeedsMeasure || due.CannotSay != "can't say until measured: some passes were not counted" {
		t.Fatalf("with passes unknown: %v, %q", due.Passes, due.CannotSay)
	}
	b.measure(day(-4), player, inventory.Loose, 9.0)
	due = b.only(player)
	if due.Passes == nil {
		t.Fatal("measured again, and still nothing is said")
	}
	near(t, "loss", due.Sides[0].Loss, 0.019, 0.003) // the loose series begins anew: its loss is the usual one
	b.measure(day(-4), player, inventory.Fitted, 9.0)
	due = b.only(player)
	near(t, "loss", due.Sides[0].Loss, 0.0214, 0.0004)
	near(t, "passes left", due.Passes.Middle, 0.6/0.0214, 1.5)
}

// TestNothingKnown gives the club's usual range and no day; two earlier runners give
// an interval from these only.
func TestNothingKnown(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	first, second := b.steel(player, "Skua R"), b.steel(player, "Skua R")
	b.do(day(-90), deeds.PutSetIn{Player: player, Set: first})
	due := b.only(player)
	if due.Basis != wear.ClubRange || due.Passes == nil || due.Dates != nil || !strings.Contains(due.ToDo, "60 passes") {
		t.Errorf("new steel, nothing measured: basis %d, %v passes, dates %v, %q", due.Basis, due.Passes, due.Dates, due.ToDo)
	}
	if due.Passes.High < 1.8*due.Passes.Low {
		t.Errorf("a range of %+v pretends to know", *due.Passes)
	}
	b.do(day(-89), deeds.TakeOut{Player: player, Reason: "rotate"})
	b.worn(player, first, 20)
	b.do(day(-10), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: player, Reason: "low"}, Set: second})
	due = b.only(player)
	if due.Basis != wear.EarlierRunners || due.Earlier != 2 || due.Heights != 0 {
		t.Errorf("basis %d, %d earlier runners, %d heights", due.Basis, due.Earlier, due.Heights)
	}
	near(t, "loss", due.Sides[0].Loss, 0.0210, 0.0008)
}

// TestGoalkeepersApart learns nothing about skaters from goalkeepers.
func TestGoalkeepersApart(t *testing.T) {
	b := openBench(t)
	player, keeper := b.skater(17, "defence"), b.skater(31, "goalkeeper")
	b.do(day(-50), deeds.PutSetIn{Player: player, Set: b.steel(player, "Skua R")})
	before := *b.only(player).Passes
	first, second := b.steel(keeper, "Auk G"), b.steel(keeper, "Auk G")
	b.worn(keeper, first, 20)
	b.do(day(-10), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: keeper, Reason: "low"}, Set: second})
	if after := *b.only(player).Passes; after != before {
		t.Errorf("a goalkeeper's steel changed a skater's range from %+v to %+v", before, after)
	}
	other := b.skater(7, "forward")
	third, fourth := b.steel(other, "Skua R"), b.steel(other, "Skua R")
	b.worn(other, third, 20)
	b.do(day(-10), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: other, Reason: "low"}, Set: fourth})
	if after := *b.only(player).Passes; after == before {
		t.Error("another skater's steel told nothing")
	}
}

// TestUrgency puts unsafe steel first, and leaves who said no in peace until the review.
func TestUrgency(t *testing.T) {
	b := openBench(t)
	cracked, low, fine := b.skater(7, "forward"), b.skater(17, "defence"), b.skater(31, "forward")
	for _, player := range []inventory.Number{fine, low, cracked} {
		b.worn(player, b.steel(player, "Skua R"), 10)
	}
	b.grind(day(-9), low, 40)
	b.grind(day(-8), low, 10)
	b.measure(day(-8).Add(time.Hour), low, inventory.Fitted, 8.3)
	runner := b.only(cracked).Sides[0].Runner
	b.do(day(-3), deeds.ReportDamage{Piece: runner, Mode: "crack"})
	order := func() []int {
		var sweaters []int
		for _, due := range b.due() {
			sweaters = append(sweaters, due.Sweater)
		}
		return sweaters
	}
	if got := order(); len(got) != 3 || got[0] != 7 || got[1] != 17 || got[2] != 31 {
		t.Errorf("in the order %v, want 7 17 31", got)
	}
	b.do(day(-2), deeds.RefuseChange{Player: low, Review: inventory.At(day(5))})
	if got := order(); got[2] != 17 {
		t.Errorf("asked and said no: in the order %v, want 17 last", got)
	}
	if due := b.only(low); due.Standing != SaidNo || due.Refusal == nil {
		t.Errorf("standing %d, refusal %v", due.Standing, due.Refusal)
	}
	if late := MayBeDue(b.due(), day(2)); len(late) != 3 {
		t.Errorf("without a schedule nobody surely lasts, yet %d are told", len(late))
	}
}

// TestReadySets names what could go on: ground first, nothing unsafe, nothing that gave
// a runner away.
func TestReadySets(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	sets := []inventory.Number{b.steel(player, "Skua R"), b.steel(player, "Skua R"), b.steel(player, "Skua R"), b.steel(player, "Skua R"), b.steel(player, "Skua R")}
	b.do(day(-50), deeds.PutSetIn{Player: player, Set: sets[0]})
	five := 5
	b.do(day(-40), deeds.Grind{Set: sets[2], Passes: inventory.Both[int]{Left: &five, Right: &five}})
	set, err := inventory.FindSet(b, sets[3])
	if err != nil {
		t.Fatal(err)
	}
	b.do(day(-30), deeds.ReportDamage{Piece: set.Left, Mode: "bend"})
	gave, err := inventory.FindSet(b, sets[4])
	if err != nil {
		t.Fatal(err)
	}
	b.do(day(-20), deeds.MakeSet{Player: player, Left: gave.Left, Right: set.Right})
	var letters []string
	for _, ready := range b.only(player).Ready {
		letters = append(letters, ready.Letter)
	}
	if got := strings.Join(letters, " "); got != "C B F" {
		t.Errorf("ready are %q, want C (ground), B and F", got)
	}
}
