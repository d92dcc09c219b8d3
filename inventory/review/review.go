package review

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// Review is what is told of some pieces.
type Review struct {
	Pieces    int       // those that are done with, and all of a bin
	Players   []*Player // in sweater order
	Removals  []*Life   // runners that are done with, in the order in which they came off
	Findings  []Finding // those that differ first
	Operators []Hand
	Machines  []Hand
	Reasons   Incidence
}

// Incidence is which share of runners had left use after so many sessions (or days,
// where there is no schedule), by reason.
type Incidence struct {
	Unit    string // sessions or days
	Runners int
	Steps   []stats.IncidenceStep // low steel, breakage, other
}

// Span is the time that a review is about.
type Span struct{ From, Until time.Time }

// Compile tells what lives come to. Who names a player and tells goalkeepers from
// skaters.
func Compile(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (*Review, error) {
	r := &Review{Players: playersOf(lives, who)}
	for _, life := range inOrder(lives) {
		if !life.InUse {
			r.Pieces++
			if life.Steel() {
				r.Removals = append(r.Removals, life)
			}
		}
	}
	l := looker{lives: lives, players: r.Players, span: span, learnt: map[*Player]*learnt{}}
	if err := l.learn(c); err != nil {
		return nil, err
	}
	if err := l.find(r); err != nil {
		return nil, err
	}
	var err error
	r.Reasons, err = incidenceOf(lives, r.Players)
	return r, err
}

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
	r.Findings = standing(r.Findings, then.Findings)
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

// incidenceOf is when skaters' runners left use, and why.
func incidenceOf(lives []*Life, players []*Player) (Incidence, error) {
	keepers := map[inventory.Number]bool{}
	for _, p := range players {
		keepers[p.Number] = p.Goalkeeper
	}
	length := func(l *Life) *int { return l.Times }
	in := Incidence{Unit: "sessions"}
	if !slices.ContainsFunc(lives, func(l *Life) bool { return l.Times != nil }) {
		in.Unit, length = "days", func(l *Life) *int { return l.Days }
	}
	var spans []trend.LifeSpan
	for _, l := range lives {
		if n := length(l); l.Steel() && !keepers[l.Player] && n != nil && *n > 0 {
			spans = append(spans, trend.LifeSpan{Length: float64(*n), Reason: l.reason()})
		}
	}
	if in.Runners = len(spans); in.Runners == 0 {
		return in, nil
	}
	var err error
	in.Steps, err = trend.ByReason(spans)
	return in, err
}

// reason is why a runner left use.
func (l *Life) reason() trend.Reason {
	switch {
	case l.InUse:
		return trend.StillInUse
	case l.Reason == "low":
		return trend.LowSteel
	case l.BrokenOff():
		return trend.Breakage
	}
	return trend.OtherReason
}
