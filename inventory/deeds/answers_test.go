package deeds

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
	"steeltally/inventory/openwork"
	"steeltally/inventory/outlook"
	"steeltally/inventory/review"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
	"steeltally/inventory/standing/standingtest"
	"steeltally/inventory/wayback"
	"steeltally/inventory/wear"
)

var full = flag.Bool("full", false, "ask everything at every step, in many more streams")

// answered asks everything that is asked of a record at an instant, and gives what could not
// be worked out of it.
func answered(v inventory.View, at time.Time) error {
	return inventory.Guard(func() error {
		return errors.Join(foretold(v, at), travelled(v, at), lookedBackOn(v, at))
	})
}

// foretold asks what is due and what to buy.
func foretold(v inventory.View, at time.Time) error {
	var members []*standing.Member
	var ungathered []inventory.Unworked
	for _, n := range standing.Whom(inventory.RosterOf(v).Members) {
		err := inventory.Guard(func() error {
			m, err := standing.Gather(v, n, at)
			if err == nil {
				members = append(members, m)
			}
			return err
		})
		if err != nil {
			ungathered = append(ungathered, inventory.Unworked{About: n, Cause: err})
		}
	}
	learnt, err := standing.Learn(members, at, wear.Defaults(), ungathered...)
	if err != nil {
		return fmt.Errorf("looking ahead: %w", err)
	}
	o := outlook.Look(learnt, outlook.ReadSchedule(v, at), wear.Defaults())
	_, _, unworked := o.Due()
	list, err := o.Buy(at.AddDate(0, 2, 0), nil, rand.New(rand.NewPCG(1, 2)))
	if errors.Is(err, wear.ErrNoSchedule) {
		err = nil
	}
	_, checkErr := o.LookBack(60)
	return errors.Join(err, checkErr, causesOf("due", unworked), causesOf("to buy", list.Unworked))
}

// travelled asks for spare pairs, what waits, what lies about, and what helps when
// something breaks on any pair.
func travelled(v inventory.View, at time.Time) error {
	var unworked []inventory.Unworked
	now := standingtest.Look(v, at)
	for _, p := range sparepair.Squad(now) {
		if p.Unworked != nil {
			unworked = append(unworked, *p.Unworked)
		}
	}
	for _, item := range openwork.Work(now) {
		if item.Unworked != nil {
			unworked = append(unworked, *item.Unworked)
		}
	}
	roadtrip.LyingAbout(v, at)
	for _, m := range inventory.RosterOf(v).Members {
		player, err := inventory.PlayerOf(v, m.Player)
		if err != nil {
			continue
		}
		roadtrip.Needs(now, player)
		for _, n := range player.Pairs {
			pair, err := inventory.FindPair(v, n)
			if err != nil {
				continue
			}
			for _, side := range inventory.Sides() {
				wayback.Options(now, player, wayback.BreakageOn(v, pair, side, at))
			}
		}
	}
	return causesOf("on the road", unworked)
}

// lookedBackOn asks for the review of the club, and of all its pieces as a bin.
func lookedBackOn(v inventory.View, at time.Time) error {
	from := at.AddDate(-2, 0, 0)
	reader := review.NewReader(v, review.ReadSessions(v, from, at), from, at)
	var lives []*review.Life
	var scans []string
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder} {
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			if life, known := reader.Life(n); known {
				lives = append(lives, life)
			}
			scans = append(scans, n.String())
			return true
		})
	}
	span := review.Span{From: from, Until: at}
	all, err := review.Compile(lives, reader.Who, span, wear.Defaults())
	if err != nil {
		return fmt.Errorf("a review: %w", err)
	}
	binned, err := review.Compile(reader.SortBin(scans).Lives, reader.Who, span, wear.Defaults())
	if err != nil {
		return fmt.Errorf("a review of a bin: %w", err)
	}
	return errors.Join(causesOf("review", reader.Unworked()), causesOf("review", all.Unworked), causesOf("bin", binned.Unworked))
}

func causesOf(what string, list []inventory.Unworked) error {
	var errs []error
	for _, u := range list {
		errs = append(errs, fmt.Errorf("%s of %s: %w%s", what, u.Whose(), u.Cause, trailOf(u.Cause)))
	}
	return errors.Join(errs...)
}

func trailOf(err error) string {
	if defect := new(inventory.Defect); errors.As(err, &defect) {
		return "\n" + defect.Trail
	}
	return ""
}

// asksNonsense holds a record to being answerable, or to saying why it is not.
func asksNonsense(t *testing.T, what string, v inventory.View, instants ...time.Time) {
	t.Helper()
	for _, at := range instants {
		if err := answered(v, at); trailOf(err) != "" {
			t.Fatalf("%s, asked of %s: %v%s", what, at.Format(time.DateTime), err, trailOf(err))
		}
	}
}

// asks holds a record to being answerable at some instants.
func asks(t *testing.T, what string, v inventory.View, instants ...time.Time) {
	t.Helper()
	for _, at := range instants {
		if err := answered(v, at); err != nil {
			t.Fatalf("%s, asked of %s: %v%s", what, at.Format(time.DateTime), err, trailOf(err))
		}
	}
}

// everySo is at which steps a stream is asked: at all with -full.
func everySo(short int) int {
	if *full {
		return 1
	}
	return short
}

// TestEverythingIsAnsweredOfNonsense asks of records that no careful station writes: whatever
// events say, what follows from them can be worked out or says why not.
func TestEverythingIsAnsweredOfNonsense(t *testing.T) {
	streams, asked := uint64(6), 0
	if *full {
		streams = 200
	}
	for seed := range streams {
		c := inventorytest.NewChance(t, "..", 900+seed)
		d := openClubhouse(t).desk
		for step := range 120 {
			d.Add(c.Event())
			if step%everySo(12) == 0 {
				asksNonsense(t, fmt.Sprintf("stream %d, step %d", seed, step), &d.Ledger, time.Time{}, at(t, "5 12:00"), theNow)
				asked++
			}
		}
	}
	t.Logf("%d records were asked of", asked)
}

// TestEverythingIsAnsweredAfterMerges lets two stations work on one club for themselves, sets
// of the only goalkeeper matched crosswise at both, what was taken back taken back again, and
// asks of each record and of both together.
func TestEverythingIsAnsweredAfterMerges(t *testing.T) {
	streams, accepted, crosswise := uint64(4), map[string]int{}, 0
	if *full {
		streams = 100
	}
	for seed := range streams {
		r := rand.New(rand.NewPCG(seed, 23))
		c := openClubhouse(t)
		c.kitRunners = append(c.kitRunners, c.stock(inventory.KindRunner, "Model RG", "", 4)...)
		c.match(c.kit, c.kitRunners[2], c.kitRunners[3])
		for day := range 30 {
			c.do(opening, AddSession{Start: inventory.At(theNow.AddDate(0, 0, day-20).Truncate(24 * time.Hour).Add(18 * time.Hour)), Game: false})
		}
		stations := [2]*desk{c.desk, c.second()}
		now := at(t, "2 09:00")
		for step := range 120 {
			now = now.Add(time.Duration(1+r.IntN(5)) * time.Hour)
			d := stations[r.IntN(2)]
			deed := c.likelyDeed(d, r)
			if outcome, err := deed.Decide(&d.Ledger, Moment{inventory.At(now), theNow}); err == nil {
				d.note(outcome.Drafts...)
				accepted[fmt.Sprintf("%T", deed)]++
			}
			if step%15 == 14 {
				stations[0].merge(stations[1])
			}
			if step%everySo(15) == 0 {
				asks(t, fmt.Sprintf("stream %d, step %d", seed, step), &d.Ledger, now, theNow)
			}
		}
		crosswise += rematched(&c.Ledger)
	}
	for _, kind := range []string{"MakeSet", "PutSetIn", "TakeOut", "Grind", "MeasureSteel", "ReportDamage", "Undo", "CallEmergency", "EndEmergency"} {
		if accepted["deeds."+kind] < 5 {
			t.Errorf("%s was accepted %d times: that tries too little", kind, accepted["deeds."+kind])
		}
	}
	if crosswise < 4 {
		t.Errorf("%d runners were matched anew: that tries too little", crosswise)
	}
}

// rematched counts the runners that were in more than one set.
func rematched(l *inventory.Ledger) int {
	count := 0
	l.Each(inventory.KindRunner, func(_ inventory.Number, e inventory.Entity) bool {
		sets := map[inventory.Number]bool{}
		for _, move := range e.(*inventory.Runner).Moves {
			sets[move.Value.Set] = true
		}
		if len(sets) > 1 {
			count++
		}
		return true
	})
	return count
}

// likelyDeed is a deed of a bench, about what is there; not all of them are allowed.
func (c *clubhouse) likelyDeed(d *desk, r *rand.Rand) Deed {
	player, runners := c.kit, c.kitRunners
	if r.IntN(3) == 0 {
		player, runners = c.bo, c.runners
	}
	one := func() inventory.Number { return runners[r.IntN(len(runners))] }
	p, err := inventory.PlayerOf(&d.Ledger, player)
	if err != nil {
		c.t.Fatal(err)
	}
	set := p.Sets[r.IntN(len(p.Sets))].Set
	if r.IntN(2) == 0 {
		set = p.Sets[len(p.Sets)-1].Set
	}
	height := geometry.Millimetre(12 - 4*r.Float64())
	events := d.Events()
	switch r.IntN(16) {
	case 0, 1:
		return MakeSet{Player: player, Left: one(), Right: one()}
	case 2, 3:
		return PutSetIn{Player: player, Set: set}
	case 4, 5:
		return TakeOut{Player: player, Reason: []inventory.Reason{"low", "rotate", "broken"}[r.IntN(3)], Side: []inventory.Side{"", "", inventory.Left}[r.IntN(3)]}
	case 6, 7:
		return Grind{Player: player, Unknown: r.IntN(5) == 0}
	case 8:
		return MeasureSteel{Player: player, AsRead: true, Heights: []inventory.Height{{Runner: one(), Middle: &height}}}
	case 9:
		return ReportDamage{Piece: one(), Mode: []inventory.Mode{"crack", "bend"}[r.IntN(2)]}
	case 10:
		return CallEmergency{Player: player, Side: inventory.Sides()[r.IntN(2)]}
	case 11, 12:
		return EndEmergency{Player: player, Did: inventory.Remedies()[r.IntN(len(inventory.Remedies()))]}
	}
	// Mostly what was noted last is taken back: a correction, too.
	last := len(events) - 1 - min(r.IntN(1+r.IntN(20)), len(events)-1)
	return Undo{Events: []inventory.Event{*events[last]}}
}
