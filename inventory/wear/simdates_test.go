package wear_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"steeltally/inventory/wear"
)

// kinds of sessions, as the schedule has them.
const (
	practice = iota
	game
	kindsOfSessions
)

// habits are a player's true passes in a session of each kind: a mean and the
// spread of one session; now and then there is no grind at all.
type habits struct{ mean, spread [kindsOfSessions]float64 }

const noGrind = 0.1

func drawHabits(r *rand.Rand) habits {
	return habits{
		mean:   [kindsOfSessions]float64{5 * math.Exp(.25*r.NormFloat64()), 11 * math.Exp(.25*r.NormFloat64())},
		spread: [kindsOfSessions]float64{1.5, 4},
	}
}

func (h habits) passes(r *rand.Rand, kind int) int {
	if r.Float64() < noGrind {
		return 0
	}
	return max(1, int(math.Round(h.mean[kind]+h.spread[kind]*r.NormFloat64())))
}

// logged are the sessions of one kind that a player's book has.
func (h habits) logged(r *rand.Rand, kind, sessions int) []float64 {
	list := make([]float64, sessions)
	for i := range list {
		list[i] = float64(h.passes(r, kind))
	}
	return list
}

// week is a schedule's sessions by day: practice and game.
var week = [7][kindsOfSessions]int{{1, 0}, {1, 0}, {1, 1}, {0, 0}, {1, 0}, {1, 1}, {0, 1}}

func schedule(days int) [][]int {
	sessions := make([][]int, days)
	for d := range sessions {
		sessions[d] = week[d%len(week)][:]
	}
	return sessions
}

// dayDue grinds a pair through the schedule and gives the first day by whose end
// its left runner is at its change height; −1 if it is now, days if never.
func (s *simClub) dayDue(p present, h habits, sessions [][]int) int {
	pair := p.pair
	if pair.Left.Height <= s.ChangeHeight {
		return -1
	}
	for d, today := range sessions {
		for kind, n := range today {
			for range n {
				if passes := h.passes(s.r, kind); passes > 0 {
					s.GrindPair(s.r, &pair, passes)
				}
			}
		}
		if pair.Left.Height <= s.ChangeHeight {
			return d
		}
	}
	return len(sessions)
}

// place is where the outcome lies in what was forecast, from 0 to 1, evenly
// spread if forecasts are honest; a day being a whole day, chance decides within
// it (the randomised probability integral transform).
func place(r *rand.Rand, f wear.Forecast, days []wear.Day, day int) float64 {
	low, high := 0.0, 1.0
	switch {
	case day == 0:
		low = f.DueBy(0)
	case day > 0:
		low = f.DueByDay(days[day-1])
	}
	switch {
	case day < 0:
		high = f.DueBy(0)
	case day < len(days):
		high = f.DueByDay(days[day])
	}
	return low + (high-low)*r.Float64()
}

// diary is a club's players with their habits and logged sessions.
type diary struct {
	players []habits
	logs    [kindsOfSessions][][]float64 // by kind and player
}

// newDiary logs from a handful of sessions to three months of them a player.
func newDiary(r *rand.Rand, players int) diary {
	var d diary
	for range players {
		h := drawHabits(r)
		sessions := 3 + r.IntN(60)
		d.players = append(d.players, h)
		d.logs[practice] = append(d.logs[practice], h.logged(r, practice, sessions))
		d.logs[game] = append(d.logs[game], h.logged(r, game, 1+sessions/3))
	}
	return d
}

// days are what the program makes of a schedule for one player.
func (d diary) days(c wear.Constants, player int, sessions [][]int) ([]wear.Day, error) {
	var kinds []wear.SessionPasses
	for _, logs := range d.logs {
		others := append(append([][]float64{}, logs[:player]...), logs[player+1:]...)
		k, err := c.PoolSessions(logs[player], others)
		if err != nil {
			return nil, err
		}
		kinds = append(kinds, k)
	}
	return wear.Schedule(sessions, kinds)
}

// datesOfClub gives the places of the dates of a club's players, each asked with
// three heights at half-life.
func datesOfClub(number uint64) ([]float64, error) {
	r := rand.New(rand.NewPCG(40+number, 4))
	s := newSimClub(r, history{pairs: 2}.earlierPairs(r), 0)
	d := newDiary(r, askedPlayers)
	var presents []present
	for player := range askedPlayers {
		presents = append(presents, s.presentPair(player, 3, .5))
	}
	known, err := s.learn(presents)
	if err != nil {
		return nil, err
	}
	sessions := schedule(120)
	var places []float64
	for i, p := range presents {
		f, err := forecast(known, p)
		if err != nil {
			return nil, err
		}
		days, err := d.days(s.constants, i, sessions)
		if err != nil {
			return nil, err
		}
		places = append(places, place(r, f.Left, days, s.dayDue(p, d.players[i], sessions)))
	}
	return places, nil
}

// Four of five dates fall within the 80 % span of days, half before the middle
// one: the places are even.
func TestDatesHold(t *testing.T) {
	held, below, n := 0.0, 0.0, 0.0
	for i := range 4 * clubs() {
		places, err := datesOfClub(uint64(i))
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range places {
			n++
			if u >= .1 && u <= .9 {
				held++
			}
			if u < .5 {
				below++
			}
		}
	}
	report(t, "%.0f dates: 80 %% spans held %.3f, before the middle date %.3f", n, held/n, below/n)
	between(t, "80 % spans of dates held", held/n, .77, .83, .06)
	between(t, "before the middle date", below/n, .45, .55, .08)
}
