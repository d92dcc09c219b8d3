package review

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/trend"
)

// WornSet is a set that is done with: its left and right runner, as far as they are there.
type WornSet struct {
	Left, Right *Life
	Place       int // in the order in which the player's sets here came off, from 1
	In, Out     inventory.When
}

// lives are the runners that are there.
func (s *WornSet) lives() []*Life {
	var list []*Life
	for _, life := range []*Life{s.Left, s.Right} {
		if life != nil {
			list = append(list, life)
		}
	}
	return list
}

// together tells whether its runners were ground in this set only: a partner is whom a
// runner was ground with.
func (s *WornSet) together() bool {
	return !slices.ContainsFunc(s.lives(), func(l *Life) bool { return l.elsewhere })
}

// Broke tells whether the set came off because something broke.
func (s *WornSet) Broke() bool {
	return slices.ContainsFunc(s.lives(), (*Life).BrokenOff)
}

// wornSets puts a player's runners that are done with back together as sets, in the
// order in which they came off. The record says which belong together; of tags it is
// the left and the right one that went in and came off on the same days.
func wornSets(lives []*Life) []*WornSet {
	var sets []*WornSet
	for _, life := range inOrder(lives) {
		if life.InUse || !life.Steel() {
			continue
		}
		if mate := mateOf(sets, life); mate != nil {
			mate.put(life)
			continue
		}
		s := &WornSet{In: life.In, Out: life.Out}
		s.put(life)
		sets = append(sets, s)
	}
	for i, s := range sets {
		s.Place = i + 1
	}
	return sets
}

// inOrder sorts lives by the day off, then the day in.
func inOrder(lives []*Life) []*Life {
	sorted := slices.Clone(lives)
	slices.SortStableFunc(sorted, func(a, b *Life) int {
		return cmp.Or(a.Out.Compare(b.Out), a.In.Compare(b.In), cmp.Compare(a.Place, b.Place), cmp.Compare(a.Number, b.Number))
	})
	return sorted
}

// put lays a runner on its side; one that has no side yet goes where there is room.
func (s *WornSet) put(life *Life) {
	if life.Side == inventory.Right || life.Side == "" && s.Left != nil {
		s.Right = life
		return
	}
	s.Left = life
}

func mateOf(sets []*WornSet, life *Life) *WornSet {
	for _, s := range slices.Backward(sets) {
		if s.room(life) && s.belongs(life) {
			return s
		}
	}
	return nil
}

func (s *WornSet) room(life *Life) bool {
	switch life.Side {
	case inventory.Left:
		return s.Left == nil
	case inventory.Right:
		return s.Right == nil
	}
	return s.Left == nil || s.Right == nil
}

// belongs tells whether a runner is the mate of the one that is there.
func (s *WornSet) belongs(life *Life) bool {
	other := s.lives()[0]
	if other.Set != 0 && life.Set != 0 {
		return other.Set == life.Set
	}
	return sameDay(other.Out, life.Out) && sameDay(other.In, life.In)
}

// sameDay compares two times as vague as they are; of unknown ones nothing is said.
func sameDay(a, b inventory.When) bool {
	return !a.Unknown() && !b.Unknown() && a.Start.Sub(b.Start).Abs() < 24*time.Hour && (a.Exact() || b.Exact() || a.End.Equal(b.End))
}

// Sides compares how fast a player's left and right steel wears.
type Sides struct {
	Sets       int     `json:"sets"`  // with both sides known; 0: nothing to compare
	Ratio      float64 `json:"ratio"` // left over right
	Low, High  float64 `json:"-"`
	Verdict    Verdict `json:"verdict"`
	Detectable float64 `json:"-"` // a difference below this share would not show; +Inf: none would
}

// compareSides compares each player's sets that were off by a time; all players are
// judged together.
func compareSides(players []*Player, l map[*Player]*learnt, until time.Time) (map[*Player]Sides, error) {
	plan := trend.UsualPlan()
	sides := map[*Player]Sides{}
	var compared []*Player
	var ps []float64
	for _, p := range players {
		left, right := lossesBySide(p, l[p], until)
		if len(left) == 0 {
			continue
		}
		c, err := trend.CompareSides(left, right, level, plan.LevelAtLook())
		if err != nil {
			return nil, fmt.Errorf("%s: left against right: %w", p.Say(), err)
		}
		sides[p] = Sides{len(left), c.Ratio, c.Interval.Low, c.Interval.High, CantSay, c.Detectable}
		if c.Tested {
			compared, ps = append(compared, p), append(ps, c.P)
		}
	}
	return sides, judge(plan, ps, func(i int) {
		s := sides[compared[i]]
		s.Verdict = Differs
		sides[compared[i]] = s
	})
}

// judge calls those that differ, all comparisons of one kind together.
func judge(plan trend.Plan, ps []float64, differs func(int)) error {
	if len(ps) == 0 {
		return nil
	}
	verdicts, err := plan.Differs(ps)
	for i, v := range verdicts {
		if v {
			differs(i)
		}
	}
	return err
}

// lossesBySide are the losses per pass of the sets of which both sides are known and were
// ground together, that were off by a time.
func lossesBySide(p *Player, l *learnt, until time.Time) (left, right []float64) {
	for _, s := range p.Sets {
		if s.Out.After(until) || !s.together() {
			continue
		}
		a, okA := l.ofRunner(s.Left)
		b, okB := l.ofRunner(s.Right)
		if okA && okB {
			left, right = append(left, a), append(right, b)
		}
	}
	return left, right
}

// lookYear is the year whose set days verdicts are reached on: from September, as
// seasons are (common practice, no source).
const (
	lookMonth = time.September
	lookDays  = 365
)

// lastLook is the start of the day after the last set day; the zero time before the
// first one of the year, when the verdicts of the year before stand.
func lastLook(at time.Time) (time.Time, error) {
	year := at.Year()
	if at.Month() < lookMonth {
		year--
	}
	start := time.Date(year, lookMonth, 1, 0, 0, 0, 0, at.Location())
	day := int(at.Sub(start).Hours()/24) + 1
	look, any, err := trend.UsualPlan().LastLook(day, lookDays)
	if err != nil {
		return time.Time{}, err
	}
	if !any {
		return start, nil // the last day of the year before was its last set day
	}
	return start.AddDate(0, 0, look), nil
}

// faster says a ratio in words: "12 % faster", "7 % slower".
func faster(ratio float64) string {
	percent := 100 * (ratio - 1)
	if math.Round(percent) == 0 {
		return "0 % faster"
	}
	if percent < 0 {
		return fmt.Sprintf("%.0f %% slower", -percent)
	}
	return fmt.Sprintf("%.0f %% faster", percent)
}
