package review

import (
	"fmt"
	"math"
	"time"

	"steeltally/inventory/wear/trend"
)

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
