package review

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
)

// Player is what the review tells of one player.
type Player struct {
	Number     inventory.Number      `json:"number"` // zero: only the sweater is known
	Sweater    int                   `json:"sweater"`
	Name       string                `json:"name"`
	Goalkeeper bool                  `json:"goalkeeper"`
	Pieces     int                   `json:"pieces"` // runners and holders that are done with
	Sets       []*WornSet            `json:"-"`
	Days       Spread                `json:"-"`                   // in use, by set
	Times      Spread                `json:"-"`                   // sessions in use, by set
	Grinds     Spread                `json:"-"`                   // by set
	Heights    Spread                `json:"-"`                   // at removal, mm, by runner
	Below      int                   `json:"below_change_height"` // runners taken off below the change height
	Refused    int                   `json:"below_after_refusal"` // of these, after the player had said no
	Reasons    map[inventory.Why]int `json:"reasons"`
	Incidents  int                   `json:"incidents"` // cracks, breaks and bends of his steel and holders
	Loss       Loss                  `json:"-"`
	Sides      Sides                 `json:"-"`
	lives      []*Life
	apart      []float64
}

// Lives are the player's pieces, those in use too.
func (p *Player) Lives() []*Life { return p.lives }

// Known tells whether it is known whose steel it is.
func (p *Player) Known() bool { return p.Number != 0 || p.Sweater != 0 }

// Has tells whether a piece is the player's.
func (p *Player) Has(life *Life) bool { return slices.Contains(p.lives, life) }

// playersOf groups lives by player, in sweater order.
func playersOf(lives []*Life, who func(inventory.Number) (name string, goalkeeper bool)) []*Player {
	byKey := map[playerKey]*Player{}
	var players []*Player
	for _, life := range lives {
		key := keyOf(life)
		p := byKey[key]
		if p == nil {
			p = &Player{Number: life.Player, Sweater: life.Sweater, Reasons: map[inventory.Why]int{}}
			byKey[key] = p
			players = append(players, p)
		}
		p.lives = append(p.lives, life)
	}
	for _, p := range players {
		p.addUp(who)
	}
	slices.SortStableFunc(players, func(a, b *Player) int {
		return cmp.Or(cmp.Compare(a.Sweater, b.Sweater), cmp.Compare(a.Number, b.Number))
	})
	return players
}

// playerKey is the player, or where he is not known his sweater.
type playerKey struct {
	number  inventory.Number
	sweater int
}

func keyOf(l *Life) playerKey {
	if l.Player != 0 {
		return playerKey{number: l.Player}
	}
	return playerKey{sweater: l.Sweater}
}

func (p *Player) addUp(who func(inventory.Number) (string, bool)) {
	p.Name, p.Goalkeeper = who(p.Number)
	p.Sets = wornSets(p.lives)
	p.Days = ofSets(p.Sets, func(l *Life) (float64, bool) { return whole(l.Days) })
	p.Times = ofSets(p.Sets, func(l *Life) (float64, bool) { return whole(l.Times) })
	p.Grinds = ofSets(p.Sets, func(l *Life) (float64, bool) { return float64(l.Grinds), l.Grinds > 0 && !l.Unknown })
	var heights []float64
	latest := time.Time{}
	for _, life := range p.lives {
		if life.Out.Start.After(latest) && life.Sweater != 0 {
			latest, p.Sweater = life.Out.Start, life.Sweater
		}
		p.Goalkeeper = p.Goalkeeper || p.Name == "" && keepersHollow(life.Hollow)
		p.Incidents += life.incidents(forever())
		if life.InUse {
			continue
		}
		p.Pieces++
		if !life.Steel() {
			continue
		}
		p.Reasons[life.Reason]++
		if life.Final != nil && !life.BrokenOff() {
			heights = append(heights, float64(*life.Final))
		}
		if life.Below() {
			p.Below++
			if life.Refused {
				p.Refused++
			}
		}
	}
	p.Heights = spreadOf(heights)
}

// keepersHollow tells a goalkeeper's cut, which is measured in feet; common practice,
// no source. It stands for the position where only tags are known.
func keepersHollow(c inventory.Cut) bool { return c.Radius > 1000 }

// BrokenOff tells whether it came off because it broke, not because it was low.
func (l *Life) BrokenOff() bool { return l.Reason.Reason().Breaks() }

// incidents counts what made a piece unsafe until a time.
func (l *Life) incidents(until time.Time) int {
	count := 0
	for _, damage := range l.Damages {
		if damage.Value.Unsafe && !damage.When.After(until) {
			count++
		}
	}
	if l.FromTag && l.BrokenOff() && !l.Out.After(until) {
		count = max(count, 1)
	}
	return count
}

// forever is later than anything in a record.
func forever() time.Time { return time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC) }
