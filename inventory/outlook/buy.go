package outlook

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Fit is steel that takes the place of other steel: one model in one length, or in two
// where the boots differ.
type Fit struct {
	Model       string
	Left, Right int // lengths in mm, as marked
}

// Need is what one fit comes to until a day: sets that come off, those at hand, and
// what is missing.
type Need struct {
	Fit     Fit            `json:"-"`
	Players int            `json:"players"`
	Changes Range[float64] `json:"changes"` // sets that come off
	Ready   int            `json:"ready"`   // matched and waiting, each for its player
	Shelf   int            `json:"shelf"`   // sets that can be matched from the shelf
	Buy     Range[float64] `json:"buy"`
	Short   time.Time      `json:"-"` // the first day on which steel may be missing, in one case of ten; zero: not until then
}

// BuyList is what to buy until a day.
type BuyList struct {
	Until   time.Time // what was asked, or the schedule's end where that comes first
	Needs   []Need    // most to buy first
	Days    []time.Time
	Left    []Range[float64] // sets left by the end of each day, all fits together
	Guessed int              // players whose steel can't be forecast and was taken as half worn

	Unworked []inventory.Unworked // players who are not counted
}

// runs is how many futures are played.
const runs = 500

// Buy plays the club's changes of steel until a day, many times over, with the shelf's
// runners counted by fit. The source of chance is the caller's: the same one gives the
// same list.
func (o *Outlook) Buy(until time.Time, shelf map[Fit]int, source *rand.Rand) (BuyList, error) {
	last := min(o.calendar.dayOf(until), len(o.calendar.sessions)-1)
	if last < 1 {
		return BuyList{}, wear.ErrNoSchedule
	}
	list := BuyList{Until: o.calendar.date(last), Unworked: o.unworkedOf(nil)}
	for day := range last + 1 {
		list.Days = append(list.Days, o.calendar.date(day))
	}
	byFit := map[Fit][]*consumer{}
	for _, m := range o.Members {
		var c *consumer
		err := inventory.Guard(func() (err error) {
			c, err = o.consumer(m, last)
			return err
		})
		if err != nil {
			list.Unworked = append(list.Unworked, m.Player.Unworked(o.At, err))
		}
		if err != nil || c == nil {
			continue
		}
		if c.guessed {
			list.Guessed++
		}
		byFit[c.fit] = append(byFit[c.fit], c)
	}
	left := newTally(last + 1)
	for _, fit := range sortedFits(byFit) {
		list.Needs = append(list.Needs, o.need(fit, byFit[fit], shelf[fit]/2, left, source))
	}
	list.Left = left.ranges()
	slices.SortStableFunc(list.Needs, func(a, b Need) int {
		return cmp.Or(cmp.Compare(b.Buy.Middle, a.Buy.Middle), cmp.Compare(b.Buy.High, a.Buy.High))
	})
	return list, nil
}

func sortedFits(byFit map[Fit][]*consumer) []Fit {
	var fits []Fit
	for fit := range byFit {
		fits = append(fits, fit)
	}
	slices.SortFunc(fits, func(a, b Fit) int {
		return cmp.Or(cmp.Compare(a.Model, b.Model), cmp.Compare(a.Left, b.Left), cmp.Compare(a.Right, b.Right))
	})
	return fits
}

// consumer is a player as one who uses steel up.
type consumer struct {
	fit     Fit
	ready   int
	due     []float64 // chance that the set on is due by the end of each day; nil: half worn
	passes  []float64 // expected passes by the end of each day
	spread  float64   // of the player's passes against the expected, as a share
	loss    wear.Prior
	height  geometry.Millimetre // of new steel above the change height
	breaks  float64             // share of sets that end by breaking
	guessed bool
}

// consumer is how a player uses steel up; nil where he has none on, or no change height.
func (o *Outlook) consumer(m *standing.Member, last int) (*consumer, error) {
	pair := m.SkatesOn()
	if m.Gone || pair == nil || m.Steel(pair.Set) == nil {
		return nil, nil
	}
	set := m.Steel(pair.Set)
	change := m.SpecsAt(o.At).ChangeHeight
	if change == nil || len(set.Runners()) < len(inventory.Sides()) || set.Left.Height == nil {
		return nil, nil
	}
	days, err := o.days(m, pair.Number)
	if errors.Is(err, wear.ErrNoSessions) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	prior, err := o.RoleOf(m.Player).PriorOf(m.Number)
	if err != nil {
		return nil, err
	}
	c := &consumer{
		fit: Fit{set.Left.Model, set.Left.Size, set.Right.Size}, ready: len(m.Ready), loss: prior,
		height: *set.Left.Height - *change, breaks: breaks(m),
	}
	due, err := o.due(m, pair, set)
	if err != nil {
		return nil, err
	}
	c.guessed = due.Passes == nil
	for _, day := range days[:last+1] {
		c.passes = append(c.passes, day.Passes)
		if !c.guessed {
			c.due = append(c.due, due.forecast.DueByDay(day))
		}
	}
	if end := days[last]; end.Passes > 0 {
		c.spread = math.Sqrt(end.Variance) / end.Passes
	}
	return c, nil
}

// breaks is the share of the player's earlier sets that ended by breaking, drawn a
// little to one in twenty (common practice, no source).
func breaks(m *standing.Member) float64 {
	broken := 1.0
	for _, s := range m.Earlier {
		for _, r := range s.Runners() {
			if r.OpenDamages(s.Last) != nil {
				broken++
				break
			}
		}
	}
	return broken / (20 + float64(len(m.Earlier)))
}

// String names the fit: "Skua R 280", "Skua R 272 left, 280 right".
func (f Fit) String() string {
	if f.Left == f.Right {
		return fmt.Sprintf("%s %d", f.Model, f.Left)
	}
	return fmt.Sprintf("%s %d left, %d right", f.Model, f.Left, f.Right)
}
