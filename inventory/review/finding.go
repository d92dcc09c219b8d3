package review

import (
	"fmt"
	"math"
)

// Finding is something that was looked at, and what may be said of it.
type Finding struct {
	Kind    string  `json:"kind"`    // what was compared: sides, removal-height, lot, model, zone, side, break-height, operator, machine
	About   string  `json:"about"`   // whom or what
	Words   string  `json:"words"`   // one or two plain sentences
	Verdict Verdict `json:"verdict"` // only "differs" is a finding
	N       int     `json:"n"`       // what it rests on: sets, incidents, stretches
	Middle  float64 `json:"-"`
	Low     float64 `json:"-"`
	High    float64 `json:"-"`
	Unit    string  `json:"unit"` // of the three
	differs string  // how the words end where it differs,
	cantSay string  // and where nothing may be said
}

// Verdict is what may be said of a difference.
type Verdict string

// The verdicts. Only the first one is a finding; chance alone brings it about in at most
// one season of twenty, however often it is looked.
const (
	Differs Verdict = "differs"
	CantSay Verdict = "can't say"
)

// settle gives a finding the verdict that stands, and its words their end.
func (f *Finding) settle(v Verdict) {
	f.Verdict = v
	end := f.cantSay
	if v == Differs {
		end = f.differs
	}
	if end == "" {
		end = string(v)
	}
	f.Words += ": " + end + "."
}

// asOnSetDay gives today's findings the verdicts that were reached on the last set day.
func asOnSetDay(now, then []Finding) []Finding {
	for i := range now {
		verdict := CantSay
		for _, f := range then {
			if f.Kind == now[i].Kind && f.About == now[i].About {
				verdict = f.Verdict
			}
		}
		now[i].settle(verdict)
	}
	return now
}

// wouldShow says what the figures could have shown at all.
func wouldShow(share float64) string {
	if math.IsInf(share, 1) || share > 3 {
		return "too few to show any difference"
	}
	return fmt.Sprintf("a difference below about %.0f %% would not show", 100*share)
}

// sidesFindings tells each player's left against right.
func sidesFindings(players []*Player, sides map[*Player]Sides) []Finding {
	var found []Finding
	for _, p := range players {
		s, ok := sides[p]
		if !ok || s.Sets < 2 {
			continue
		}
		found = append(found, Finding{
			Kind: "sides", About: p.Say(), Verdict: s.Verdict, N: s.Sets,
			Words:  fmt.Sprintf("%s: left wears %s than right (%s to %s), over %d sets", p.Say(), faster(s.Ratio), signed(s.Low), signed(s.High), s.Sets),
			Middle: s.Ratio, Low: s.Low, High: s.High, Unit: "left over right",
			differs: "it differs; look at how the steel is set up and ground", cantSay: "can't say; " + wouldShow(s.Detectable),
		})
	}
	return found
}

// signed writes a ratio as a difference: "+5 %".
func signed(ratio float64) string {
	if math.IsInf(ratio, 1) {
		return "any"
	}
	return fmt.Sprintf("%+.0f %%", 100*(ratio-1))
}

// Say names a player: "17 Ansgar Lindqvarn", or what is known.
func (p *Player) Say() string {
	switch {
	case p.Name == "" && p.Sweater == 0:
		return "player not known"
	case p.Name == "":
		return fmt.Sprintf("sweater %d", p.Sweater)
	case p.Sweater == 0:
		return p.Name
	}
	return fmt.Sprintf("%d %s", p.Sweater, p.Name)
}
