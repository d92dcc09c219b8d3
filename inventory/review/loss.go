package review

import (
	"math"
	"time"

	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
)

// level is the confidence of every interval that is told: it holds in four cases of five.
const level = 0.8

// Loss is what a pass takes off a player's steel, mm.
type Loss struct {
	High   float64 `json:"high"`
	Low    float64 `json:"low"`
	Middle float64 `json:"middle"`
	Sets   int     `json:"sets"` // that tell of it; 0: can't say
}

// learnt is what a role's sets teach together.
type learnt struct {
	wear.Knowledge
	constants wear.Constants
	kinds     []wear.Kind
	plain     map[*Life]wear.Runner
	losses    map[*Life]lossKnown
}

type lossKnown struct {
	loss  float64
	known bool
}

// learn pools the sets of players of one role.
func learn(players []*Player, at time.Time, c wear.Constants) (*learnt, error) {
	kinds := standing.NewKinds()
	l := &learnt{constants: c, plain: map[*Life]wear.Runner{}, losses: map[*Life]lossKnown{}}
	var record wear.Record
	for _, p := range players {
		var pairs []wear.Pair
		for _, s := range p.Sets {
			for _, life := range s.lives() {
				l.plain[life] = plainOf(kinds, life, at)
			}
			pairs = append(pairs, l.pairs(s)...)
		}
		record.Players = append(record.Players, pairs)
	}
	l.kinds = kinds.List()
	record.Kinds = l.kinds
	var err error
	l.Knowledge, err = c.Learn(record)
	return l, err
}

// pairs is a set as it was worn: one pair, or two of one runner each where they were not
// ground together.
func (l *learnt) pairs(s *WornSet) []wear.Pair {
	if s.together() {
		return []wear.Pair{{Left: l.of(s.Left), Right: l.of(s.Right)}}
	}
	return []wear.Pair{{Left: l.of(s.Left)}, {Right: l.of(s.Right)}}
}

func plainOf(kinds *standing.Kinds, life *Life, at time.Time) wear.Runner {
	if life.tag != nil {
		return kinds.Tag(life.tag.New, life.tag.Final, life.tag.Passes, life.tag.Unknown)
	}
	plain, _ := kinds.Runner(life.runner, at)
	return plain
}

func (l *learnt) of(life *Life) wear.Runner {
	if life == nil {
		return wear.Runner{}
	}
	return l.plain[life]
}

// lossOf is what a pass takes off the steel of one of the players, numbered as learnt.
func (l *learnt) lossOf(player int) (Loss, error) {
	prior, err := l.Pool.Prior(player)
	if err != nil || prior.Pairs == 0 {
		return Loss{}, err
	}
	middle, span := prior.Loss(level)
	return Loss{Sets: prior.Pairs, Middle: middle, Low: span.Low, High: span.High}, nil
}

// ofRunner is the loss per pass that one runner's heights show by themselves; false
// where they show none.
func (l *learnt) ofRunner(life *Life) (loss float64, known bool) {
	found, asked := l.losses[life]
	if !asked {
		found.loss, found.known = l.estimate(life)
		l.losses[life] = found
	}
	return found.loss, found.known
}

func (l *learnt) estimate(life *Life) (loss float64, known bool) {
	plain := l.of(life)
	if !plain.Tells() {
		return 0, false
	}
	variance := l.CaliperVariances[l.kinds[plain.Kind].Reference]
	var segments []wear.Segment
	for _, s := range plain.Stretches {
		segment := wear.Segment{CaliperVariance: variance, Readings: s.Readings}
		if s.New {
			segment.New = l.NewHeights[plain.Kind]
		}
		if len(s.Readings) > 0 {
			segments = append(segments, segment)
		}
	}
	estimate, err := l.constants.EarlierRunner(segments)
	if err != nil || vague(estimate) {
		return 0, false
	}
	return math.Exp(estimate.Value), true
}

// vague tells an estimate that says little: it may be off by a quarter and more.
func vague(e stats.Estimate) bool { return !(e.Variance < 0.25*0.25) }
