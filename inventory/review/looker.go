package review

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory/wear"
)

// looker compares everything with everything, at a time.
type looker struct {
	lives   []*Life
	players []*Player
	span    Span
	learnt  map[*Player]*learnt
}

// learn pools skaters and goalkeepers, each for themselves.
func (l *looker) learn(c wear.Constants) error {
	for _, goalkeeper := range []bool{false, true} {
		role := slices.DeleteFunc(slices.Clone(l.players), func(p *Player) bool { return p.Goalkeeper != goalkeeper })
		learnt, err := learn(role, l.span.Until, c)
		if err != nil {
			return err
		}
		for i, p := range role {
			l.learnt[p] = learnt
			if p.Loss, err = learnt.lossOf(i); err != nil {
				return err
			}
		}
	}
	return nil
}

// find looks at everything as it stands, and gives it the verdicts of the last set day.
func (l *looker) find(r *Review) error {
	look, err := lastLook(l.span.Until)
	if err != nil {
		return err
	}
	then := &Review{}
	if err := l.lookAt(look, then); err != nil {
		return err
	}
	if err := l.lookAt(l.span.Until, r); err != nil {
		return err
	}
	r.Findings = asOnSetDay(r.Findings, then.Findings)
	for _, f := range r.Findings {
		for _, p := range r.Players {
			if f.Kind == "sides" && f.About == p.Say() {
				p.Sides.Verdict = f.Verdict
			}
		}
	}
	slices.SortStableFunc(r.Findings, func(a, b Finding) int { return cmp.Compare(order(a.Verdict), order(b.Verdict)) })
	return nil
}

func order(v Verdict) int {
	if v == Differs {
		return 0
	}
	return 1
}

// lookAt compares what had happened by a time.
func (l *looker) lookAt(until time.Time, r *Review) error {
	sides, err := compareSides(l.players, l.learnt, until)
	if err != nil {
		return err
	}
	for p, s := range sides {
		p.Sides = s
		left, right := lossesBySide(p, l.learnt[p], until)
		p.apart = nil
		for i := range left {
			p.apart = append(p.apart, 100*(left[i]/right[i]-1))
		}
	}
	r.Findings = sidesFindings(l.players, sides)
	removal, ok, err := removalTrend(l.players, l.span.From, until)
	if err != nil {
		return err
	}
	if ok {
		r.Findings = append(r.Findings, removal)
	}
	incidents, err := incidentFindings(l.lives, until)
	if err != nil {
		return err
	}
	r.Findings = append(r.Findings, incidents...)
	broken, ok, err := breakFinding(l.lives, until)
	if err != nil {
		return err
	}
	if ok {
		r.Findings = append(r.Findings, broken)
	}
	return l.lookAtHands(until, r)
}

func (l *looker) lookAtHands(until time.Time, r *Review) error {
	var err error
	if r.Operators, err = handsOf(l.players, func(h hand) string { return h.by }, "operator", until); err != nil {
		return err
	}
	if r.Machines, err = handsOf(l.players, func(h hand) string { return h.machine }, "machine", until); err != nil {
		return err
	}
	r.Findings = append(r.Findings, handFindings(r.Operators)...)
	r.Findings = append(r.Findings, handFindings(r.Machines)...)
	return nil
}
